/** What a script needs to know about the page it runs on. */
import { writeTime, type CourseOutline } from "./core";

declare global {
  interface Window {
    threeviewCourse?: CourseOutline;
  }
}

/** The course that this page belongs to, or null where no course data were loaded. */
export function courseOfPage(): CourseOutline | null {
  return window.threeviewCourse ?? null;
}

/** Address of a file of the site, given its path from the site's root. */
export function siteUrl(path: string): string {
  const meta = document.querySelector<HTMLMetaElement>('meta[name="tv-root"]');
  return new URL((meta?.content ?? "") + path, document.baseURI).href;
}

/** The moment now, written as events write it: the one place where the clock is read. */
export function now(): string {
  return writeTime(new Date());
}

export function isFromDisk(): boolean {
  return location.protocol === "file:";
}

/** A day in words, or the words for never: "25 November 2026". */
export function day(time: string): string {
  const format = { day: "numeric", month: "long", year: "numeric", timeZone: "UTC" } as const;
  return new Intl.DateTimeFormat("en-GB", format).format(new Date(time));
}

const loading = new Map<string, Promise<void>>();

/** Load a classic script of the site once; a page opened from disk may not fetch. */
export function loadScript(path: string): Promise<void> {
  const known = loading.get(path);
  if (known !== undefined) return known;
  const loaded = new Promise<void>((resolve, reject) => {
    const script = document.createElement("script");
    script.src = siteUrl(path);
    script.addEventListener("load", () => resolve());
    script.addEventListener("error", () => reject(new Error(`${path} could not be loaded`)));
    document.head.append(script);
  });
  loading.set(path, loaded);
  // A failed load may be tried again.
  loaded.catch(() => loading.delete(path));
  return loaded;
}
