/** A guide with pictures of how something is done, each drawn with the open setup's own parts into a place of its own; all are as wide. */
import { type CSSResultGroup, css } from "lit";
import type { Drawing, Frame } from "../../charts/kit/drawing.ts";
import type { Setup } from "../../setup/setup.ts";
import { controls } from "../shell/look/controls.ts";
import { PageElement } from "../state/page.ts";
import { DrawnWidth } from "./drawnWidth.ts";
import { zoom } from "./zoom.ts";

export abstract class GuideElement extends PageElement {
  readonly #width = new DrawnWidth(this, ".picture");

  static override styles: CSSResultGroup = [
    controls,
    css`
      :host {
        display: block;
        min-width: 0;
      }
      .picture svg {
        display: block;
        width: 100%;
        height: auto;
      }
      .source {
        font-size: var(--type-12);
        color: var(--muted);
      }
    `,
  ];

  /** One for each element of class `picture`, in their order. */
  protected abstract readonly pictures: readonly ((setup: Setup, frame: Frame) => Drawing)[];
  protected abstract readonly heightPx: number;

  protected override updated(): void {
    const width = Math.floor(this.#width.px / zoom());
    if (width === 0) return;
    const { document, view } = this.page.store.parts;
    const frame = { width, height: this.heightPx, unit: view.unit };
    this.renderRoot.querySelectorAll(".picture").forEach((place, i) => {
      place.replaceChildren(this.pictures[i](document.setup, frame).svg);
    });
  }
}
