// Opens a quiz from disk in Firefox, answers its first item, and prints what the page said.
//   node firefox-disk.mjs file:///folder quizzes/module.html
import puppeteer from "puppeteer-core";

const [root, path] = process.argv.slice(2);

const browser = await puppeteer.launch({
  browser: "firefox", // through WebDriver BiDi
  executablePath: "/usr/bin/firefox-esr",
  headless: true,
});
try {
  const page = await browser.newPage();
  const requests = [];
  page.on("request", (request) => {
    if (!/^(file|data|blob):/.test(request.url())) requests.push(request.url());
  });
  await page.goto(`${root}/${path}`);
  const notice = await page.waitForSelector('[data-notice="firefox-disk"]');
  const item = await page.waitForSelector("tv-item:not([hidden])");
  await (await item.$("input")).click();
  await (await item.$(".tv-item__actions button")).click();
  await page.waitForFunction((live) => live.textContent !== "", {}, await item.$(".tv-item__live"));
  const seen = {
    notice: await notice.evaluate((line) => line.textContent),
    verdict: await item.$eval(".tv-item__live", (live) => live.textContent),
    requests,
  };
  process.stdout.write(JSON.stringify(seen));
} finally {
  await browser.close();
}
