/** An element that is drawn at most once a frame, however often what it shows changes in between: a hand's every step. */
import { LitElement } from "lit";

export class FrameElement extends LitElement {
  protected override async scheduleUpdate(): Promise<void> {
    // the first drawing does not wait
    if (this.hasUpdated) await new Promise(requestAnimationFrame);
    super.scheduleUpdate();
  }
}
