/** Where the instrument is edited: beside the sheet, never over the charts it changes. Its code comes when it is first asked for. */

import { css, html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { fetchArithmetic } from "../form/arithmetic.ts";
import { PageElement } from "../state/page.ts";

const load = () => Promise.all([import("../tasks/edit/editor.ts"), fetchArithmetic()]);

@customElement("annulus-editor-region")
export class EditorRegion extends PageElement {
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

  protected override willUpdate(): void {
    const isOpen = this.page.router.parts.task === "edit";
    this.classList.toggle("open", isOpen);
    if (isOpen && !this.#isAsked) void this.#fetch();
  }

  override render() {
    if (!this.isThere) return nothing;
    return html`<annulus-editor @close=${() => this.page.router.go("explore")}></annulus-editor>`;
  }

  async #fetch(): Promise<void> {
    this.#isAsked = true;
    try {
      await load();
      this.isThere = true;
    } catch {
      this.#isAsked = false;
      this.page.store.say("error", "The editor could not be loaded; load the page again. Your work is kept.");
      this.page.router.go("explore");
    }
  }
}
