/** Keeps the course for reading without a network, through our own service worker. */
import { button, h } from "./dom";
import { siteUrl } from "./page";
import { showNotice } from "./notices";

/** Register the worker where browsers allow one; a new edition waits until the reader agrees. */
export async function keepOffline(): Promise<void> {
  if (!mayRegister()) return;
  try {
    const registration = await navigator.serviceWorker.register(siteUrl("sw.js"));
    if (registration.waiting !== null) offer(registration.waiting);
    registration.addEventListener("updatefound", () => watch(registration.installing));
  } catch {
    // The course works without; a reader on a network misses nothing.
  }
}

function mayRegister(): boolean {
  return "serviceWorker" in navigator && isSecureContext && location.protocol.startsWith("http");
}

function watch(worker: ServiceWorker | null): void {
  worker?.addEventListener("statechange", () => {
    // Without a controller this is the first visit: there is nothing to replace.
    if (worker.state === "installed" && navigator.serviceWorker.controller !== null) offer(worker);
  });
}

function offer(worker: ServiceWorker): void {
  const notice = h("p", {}, "A newer build of this course is ready. Your record stays as it is.");
  const use = button("Use it now", () => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
    worker.postMessage("activate");
  });
  showNotice("update", [notice, use], { remember: false });
}
