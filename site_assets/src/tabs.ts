/** Tells other tabs of the course that the log changed, where the browser lets tabs talk. */

export class Tabs {
  private readonly channel: BroadcastChannel | null;
  private readonly listeners = new Set<() => void>();

  constructor(course: string) {
    this.channel = openChannel(course);
    this.channel?.addEventListener("message", () => this.call());
    // A page that comes back from the browser's memory may have missed a message.
    addEventListener("pageshow", (event) => event.persisted && this.call());
  }

  /** Call back whenever this or another tab changed what is kept. */
  listen(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  announce(): void {
    this.channel?.postMessage("changed");
    this.call();
  }

  private call(): void {
    for (const listener of this.listeners) listener();
  }
}

function openChannel(course: string): BroadcastChannel | null {
  try {
    return new BroadcastChannel(`threeview:${course}`);
  } catch {
    return null; // old browser, or one that forbids it for files
  }
}
