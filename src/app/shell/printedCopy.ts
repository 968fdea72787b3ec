/**
 * One thing alone on paper. A copy of it stands beside the page, not drawn on a screen; in print it takes the page's place,
 * whose head and sheets lie in shadow roots that no style of a task reaches.
 */
import type { ReactiveController, ReactiveControllerHost } from "lit";

const sheet = new CSSStyleSheet();
sheet.replaceSync(`
  @media screen { body > [data-printed] { display: none } }
  @media print { body:has(> [data-printed]) > :not([data-printed]) { display: none } }
`);
document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];

export class PrintedCopy<Copy extends HTMLElement> implements ReactiveController {
  readonly #copy: Copy;

  constructor(host: ReactiveControllerHost, copy: Copy) {
    this.#copy = copy;
    copy.dataset.printed = "";
    host.addController(this);
  }

  /** Prints a copy with these properties from now on; null: the page itself. */
  show(properties: Partial<Copy> | null): void {
    if (!properties) {
      this.#copy.remove();
      return;
    }
    Object.assign(this.#copy, properties);
    if (!this.#copy.isConnected) document.body.append(this.#copy);
  }

  hostDisconnected(): void {
    this.#copy.remove();
  }
}
