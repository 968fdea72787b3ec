/** Where the instrument is edited: beside the sheet, never over the charts it changes. Its code comes when it is first asked for. */
import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { FrameElement } from "../state/frameElement.ts";
import { RouteController, StoreController } from "../state/storeController.ts";

const load = () => import("../tasks/edit/editor.ts");

@customElement("annulus-editor-region")
export class EditorRegion extends FrameElement {
  readonly #page = new StoreController(this);
  readonly #route = new RouteController(this);
  @state() private isThere = false;
  #isAsked = false;

  static override styles = css`
    :host {
      display: block;
    }
    :host(:not(.open)) {
      display: none;
    }
    @media print {
      :host {
        display: none;
      }
    }
  `;

  protected override news(): readonly unknown[] {
    return [this.#route.route];
  }

  protected override willUpdate(): void {
    const isOpen = this.#route.route.task === "edit";
    this.classList.toggle("open", isOpen);
    if (isOpen && !this.#isAsked) void this.#fetch();
  }

  override render() {
    if (!this.isThere) return nothing;
    return html`<annulus-editor @close=${() => this.#route.router.go("explore")}></annulus-editor>`;
  }

  async #fetch(): Promise<void> {
    this.#isAsked = true;
    try {
      await load();
      this.isThere = true;
    } catch {
      this.#isAsked = false;
      this.#page.store.say(
        "error",
        "The editor could not be loaded; load the page again. Your work is kept.",
      );
      this.#route.router.go("explore");
    }
  }
}
