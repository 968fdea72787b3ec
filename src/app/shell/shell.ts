/** The page's outermost element: head, message line, the instrument's editor beside the sheet, what the model is. */

import { css, html } from "lit";
import { customElement } from "lit/decorators.js";
import { PageElement } from "../state/page.ts";
import "./about.ts";
import "./editorRegion.ts";
import "./header.ts";
import "./messageLine.ts";
import { undoByKeys } from "./shortcuts.ts";
import "./taskNav.ts";
import "./taskSheet.ts";
import { showTheme, usePalettes } from "./look/theme.ts";

usePalettes();

@customElement("annulus-app")
export class AnnulusApp extends PageElement {
  #leaving = new AbortController();

  static override styles = css`
    :host {
      display: block;
      min-height: 100vh;
    }
    .desk {
      display: grid;
      grid-template-columns: minmax(0, 1fr);
    }
    @media (min-width: 1000px) {
      .desk.editing {
        grid-template-columns: 26rem minmax(0, 1fr);
      }
      .editing annulus-editor-region {
        position: sticky;
        top: 0;
        height: 100vh;
        overflow: auto;
        border-right: 1.5px solid var(--ink);
      }
    }
    @media (max-width: 999px) {
      .editing annulus-editor-region {
        max-height: 55vh;
        overflow: auto;
        border-bottom: 1.5px solid var(--ink);
      }
    }
    @media (min-width: 1000px) and (prefers-reduced-motion: no-preference) {
      .editing annulus-editor-region {
        animation: slide-in 160ms ease-out;
      }
      @keyframes slide-in {
        from {
          translate: -100% 0;
        }
      }
    }
    @media print {
      .desk.editing {
        grid-template-columns: minmax(0, 1fr);
      }
    }
  `;

  override connectedCallback(): void {
    super.connectedCallback();
    this.#leaving = new AbortController();
    undoByKeys(window, this.page.store, this.#leaving.signal);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#leaving.abort();
  }

  override render() {
    const { document: open, view } = this.page.store.parts;
    showTheme(view.theme);
    const title = `${open.setup.name} – Annulus`;
    if (document.title !== title) document.title = title;
    return html`
      <annulus-header></annulus-header>
      <annulus-tasks></annulus-tasks>
      <annulus-message></annulus-message>
      <div class="desk ${this.page.router.parts.task === "edit" ? "editing" : ""}">
        <annulus-editor-region></annulus-editor-region>
        <annulus-task-sheet></annulus-task-sheet>
      </div>
      <annulus-about></annulus-about>
    `;
  }
}
