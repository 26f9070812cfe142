/** Keeps the course for reading without a network, through our own service worker. */
import { button, h } from "./dom";
import { siteUrl } from "./page";
import { showNotice } from "./notices";

/** Register the worker where browsers allow one; a new build waits until the reader agrees. */
export async function keepOffline(): Promise<void> {
  if (!mayRegister()) return;
  try {
    const registration = await navigator.serviceWorker.register(siteUrl("sw.js"));
    if (registration.waiting !== null) offer(registration);
    // A page left during the first visit hands over: the worker may be at work already.
    watch(registration);
    registration.addEventListener("updatefound", () => watch(registration));
  } catch {
    // The course works without; a reader on a network misses nothing.
  }
}

function mayRegister(): boolean {
  return "serviceWorker" in navigator && isSecureContext && location.protocol.startsWith("http");
}

function watch(registration: ServiceWorkerRegistration): void {
  const worker = registration.installing;
  // Asked now, for the worker itself becomes the active one later. A page loaded past the worker
  // has no controller, yet there is an edition to replace.
  const isFirst = registration.active === null;
  worker?.addEventListener("statechange", () => {
    if (isFirst && worker.state === "activated") sayReady();
    if (!isFirst && worker.state === "installed") offer(registration);
  });
}

function sayReady(): void {
  const words = "The course is now kept on this device and can be read without a network.";
  showNotice("offline", [h("p", {}, words)], { remember: false });
}

function offer(registration: ServiceWorkerRegistration): void {
  const words = "A newer edition of this course is ready. Your record stays as it is.";
  const use = button("Load the new version", () => {
    const { waiting } = registration;
    // Another tab may have agreed since: then the newer edition is what a reload shows.
    if (waiting === null) location.reload();
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
    waiting?.postMessage("activate");
  });
  showNotice("update", [h("p", {}, words), use], { remember: false });
}
