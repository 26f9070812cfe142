/** The script of every page: elements over the finished HTML, reading, notices, offline use. */
import { courseOfPage } from "./page";
import { showNotices } from "./notices";
import { keepOffline } from "./offline";
import { watchReading } from "./reading";

function start(): void {
  void keepOffline();
  // Without course data (a page of another kind) the HTML stays as it is: complete.
  if (courseOfPage() === null) return;
  void import("./elements").then(() => Promise.all([showNotices(), watchReading()]));
}

if (document.readyState === "loading") addEventListener("DOMContentLoaded", start);
else start();
