/// <reference lib="webworker" />
/**
 * The service worker of a course: keeps all of its files under the name of the build, answers from
 * there first, and gives way to a newer build only when the page asks it to.
 *
 * The site builder puts the build's digest and the list of files in place of the two marks.
 */
export {};

declare const self: ServiceWorkerGlobalScope;

const DIGEST: string = "__TV_DIGEST__";
const FILES: readonly string[] = "__TV_FILES__" as unknown as readonly string[];

const PREFIX = `threeview:${self.registration.scope}:`;
const CACHE = PREFIX + DIGEST;

self.addEventListener("install", (event) => event.waitUntil(keepAll()));
self.addEventListener("activate", (event) => event.waitUntil(dropOthers()));

self.addEventListener("message", (event) => {
  if (event.data === "activate") void self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const isOurs = request.url.startsWith(self.registration.scope);
  if (request.method === "GET" && isOurs) event.respondWith(answer(request));
});

async function keepAll(): Promise<void> {
  const cache = await caches.open(CACHE);
  // Past the browser's own cache, or an old file could be kept under the new name.
  await cache.addAll(FILES.map((path) => new Request(fileUrl(path), { cache: "reload" })));
}

async function dropOthers(): Promise<void> {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
  // The first visit can go offline at once, without a reload.
  await self.clients.claim();
}

async function answer(request: Request): Promise<Response> {
  const url = new URL(request.url);
  if (url.pathname.endsWith("/")) url.pathname += "index.html";
  url.search = "";
  url.hash = "";
  const cache = await caches.open(CACHE);
  const kept = await cache.match(url.href);
  if (kept !== undefined) return kept;
  try {
    return await fetch(request);
  } catch {
    return request.mode === "navigate" ? notKept() : Response.error();
  }
}

function notKept(): Response {
  const words =
    "<!doctype html><meta charset=utf-8><title>Not kept</title>" +
    "<p>This page is not part of the course kept on this device, and there is no network.</p>" +
    '<p><a href="index.html">Start page</a></p>';
  const headers = { "Content-Type": "text/html; charset=utf-8" };
  return new Response(words, { status: 503, headers });
}

function fileUrl(path: string): string {
  // A path may hold characters that mean something in an address.
  return new URL(path.split("/").map(encodeURIComponent).join("/"), self.registration.scope).href;
}
