/** An element that shows the learner's log and follows it while it stands on the page. */
import { openLearner, type Learner } from "../learner";

export abstract class LiveElement extends HTMLElement {
  private stop: (() => void) | null = null;

  connectedCallback(): void {
    void this.start();
  }

  disconnectedCallback(): void {
    this.stop?.();
  }

  /** Draws what the log says now; called once at first, then after every change. */
  protected abstract draw(learner: Learner): Promise<void>;

  private async start(): Promise<void> {
    const learner = await openLearner();
    this.stop = learner.listen(() => void this.draw(learner));
    await this.draw(learner);
  }
}
