/**
 * The card alone on paper. A copy of it stands beside the page, not drawn on a screen; in print it takes the page's place,
 * whose head and sheets lie in shadow roots that no style of a task reaches.
 */
import type { ReactiveController, ReactiveControllerHost } from "lit";
import { WorkCard } from "./workCard.ts";

const sheet = new CSSStyleSheet();
sheet.replaceSync(`
  @media screen { body > annulus-work-card { display: none } }
  @media print { body:has(> annulus-work-card) > :not(annulus-work-card) { display: none } }
`);
document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];

export class PrintedCard implements ReactiveController {
  readonly #copy = new WorkCard();

  constructor(host: ReactiveControllerHost) {
    host.addController(this);
  }

  /** Prints this card from now on; none: the page itself. */
  show({ card, instrument, unit }: Pick<WorkCard, "card" | "instrument" | "unit">): void {
    if (!card) {
      this.#copy.remove();
      return;
    }
    Object.assign(this.#copy, { card, instrument, unit });
    if (!this.#copy.isConnected) document.body.append(this.#copy);
  }

  hostDisconnected(): void {
    this.#copy.remove();
  }
}
