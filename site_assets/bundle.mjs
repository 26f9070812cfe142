// Bundles the scripts of the site into dist/: classic scripts, because a page that is opened from
// disk refuses modules. `dist/sw.js` is a template that the site builder fills.
import { copyFile, mkdir, readFile, writeFile } from "node:fs/promises";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";

const HERE = new URL(".", import.meta.url).pathname;
const DIST = `${HERE}dist`;

/** Most bytes that `base.js`, loaded on every page, may weigh after gzip -9. */
const BASE_LIMIT = 35_000;

const VENDOR = [
  ["plotly.js-cartesian-dist-min/plotly-cartesian.min.js", "plotly-cartesian.min.js"],
  ["plotly.js-cartesian-dist-min/LICENSE", "plotly-cartesian.LICENSE.txt"],
  ["iframe-worker/shim/index.js", "iframe-worker.js"],
  ["iframe-worker/LICENSE", "iframe-worker.LICENSE.txt"],
];

// Licences of what ends up inside base.js.
const INSIDE = ["idb", "@noble/hashes"];

async function bundleScript(entry, target, options) {
  await build({
    entryPoints: [`${HERE}src/${entry}`],
    outfile: `${DIST}/${target}`,
    bundle: true,
    format: "iife",
    target: "es2021",
    charset: "utf8",
    legalComments: "none",
    logLevel: "warning",
    ...options,
  });
}

async function copyVendor() {
  await mkdir(`${DIST}/vendor`, { recursive: true });
  for (const [source, target] of VENDOR) {
    await copyFile(`${HERE}node_modules/${source}`, `${DIST}/vendor/${target}`);
  }
  const texts = INSIDE.map(async (name) => {
    const licence = await readFile(`${HERE}node_modules/${name}/LICENSE`, "utf8");
    return `${name}\n\n${licence.trim()}\n`;
  });
  await writeFile(`${DIST}/base.LICENSES.txt`, (await Promise.all(texts)).join("\n"));
}

await bundleScript("base.ts", "base.js", { minify: true });
await bundleScript("logbook.ts", "logbook.js", { minify: true });
await bundleScript("explore.ts", "explore.js", { minify: true });
// Left readable: the builder looks for its two marks, and a reader may look at what is kept.
await bundleScript("sw.ts", "sw.js", { minify: false });
await copyVendor();

const size = gzipSync(await readFile(`${DIST}/base.js`), { level: 9 }).length;
console.log(`base.js: ${size} bytes after gzip, of ${BASE_LIMIT} allowed`);
if (size > BASE_LIMIT) {
  console.error("base.js is too heavy for a page on a phone: move code to a script of its own.");
  process.exitCode = 1;
}
