/** The sheet's head: which instrument this is, and what can be done with the sheet as a whole. */

import { css, html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { computedOnWords } from "../../words/jobNames.ts";
import { PageElement } from "../state/page.ts";
import { jobNames } from "../state/record/jobNames.ts";
import type { ThemeChoice, Unit } from "../state/state.ts";
import { controls } from "./look/controls.ts";
import { icon } from "./look/icon.ts";
import { segments } from "./look/segments.ts";
import { setupFiles, shareLinks, whenThere } from "./onDemand.ts";
import { writeHash } from "./route.ts";

const UNITS = [
  { value: "mm", text: "mm", label: "mm, millimetres" },
  { value: "in", text: "inch", label: "inch, inches" },
] as const;
const NEXT_THEME: Readonly<Record<ThemeChoice, ThemeChoice>> = { auto: "light", light: "dark", dark: "auto" };
const THEME_ICON: Readonly<Record<ThemeChoice, string>> = { auto: "half", light: "sun", dark: "moon" };

@customElement("annulus-header")
export class Header extends PageElement {
  static override styles = [
    controls,
    css`
      :host {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.5rem 1rem;
        padding: 0.5rem var(--edge);
        border-bottom: 1.5px solid var(--ink);
      }
      .names {
        flex: 1 1 16rem;
        min-width: 0;
      }
      h1 {
        font-size: var(--type-20);
        font-weight: 650;
        line-height: 1.15;
        text-wrap: balance;
      }
      .over {
        display: flex;
        flex-wrap: wrap;
        gap: 0 0.75rem;
        font-size: var(--type-12);
        color: var(--muted);
      }
      .who {
        display: flex;
        flex-wrap: wrap;
        gap: 0 0.75rem;
        font-size: var(--type-14);
      }
      .over a {
        /* for a thumb, without making the line higher */
        margin: -0.6rem 0;
        padding: 0.6rem 0;
        max-width: 100%;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
        color: inherit;
        text-underline-offset: 0.2em;
      }
      .over a b {
        font-weight: 650;
        color: var(--ink);
      }
      .tools {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.25rem;
      }
      .tools .segments {
        margin-right: 0.5rem;
      }
      @media (max-width: 1099px) {
        .word {
          display: none;
        }
        button.worded {
          width: var(--touch);
          padding: 0;
        }
      }
      @media (max-width: 699px) {
        .names {
          flex-basis: calc(100% - 5rem);
        }
        .tools {
          order: 1;
        }
        .tools {
          width: 100%;
          justify-content: space-between;
          gap: 0;
        }
        .tools .segments {
          margin: 0;
        }
        .segments button {
          padding: 0 0.6rem;
        }
        .print {
          display: none;
        }
      }
    `,
  ];

  override render() {
    const { store } = this.page;
    const { parts: state } = store;
    const { document, view, canUndo, canRedo } = state;
    const { router } = this.page;
    const { task } = router.parts;
    const editing = task === "edit";
    const names = jobNames({
      document,
      view,
      row: document.job === undefined ? null : this.page.job.parts.row,
    });
    const who = [
      names.player,
      names.mouthpiece,
      names.computedOn && computedOnWords(names.computedOn),
    ].filter(Boolean);
    return html`
      <div class="names">
        <p class="over">
          <span>Annulus · Receiver gap planner</span>
          <a href=${writeHash("jobs")} data-testid="open-job">${this.#job(document.job)}</a>
        </p>
        <h1>${names.instrument}</h1>
        ${who.length > 0 ? html`<p class="who" data-testid="who">${who.map((part) => html`<span>${part}</span>`)}</p>` : nothing}
      </div>
      <div class="tools controls">
        ${segments<Unit>("Unit of length", UNITS, view.unit, (unit) => store.setView({ unit }))}
        ${this.#tool("open", "Open", "Open a setup file", () => whenThere(setupFiles(), store, ({ openSetupFile }) => openSetupFile(store)), true)}
        ${this.#tool("save", "Save", "Save the setup to a file", () => whenThere(setupFiles(), store, ({ saveSetupFile }) => saveSetupFile(store)), true)}
        ${this.#tool("share", "Share", "Copy a link with the whole instrument in it", () => whenThere(shareLinks(), store, ({ copyShareLink }) => copyShareLink(store, task)), true)}
        ${this.#tool("undo", nothing, "Undo (Ctrl+Z)", () => store.undo(), canUndo)}
        ${this.#tool("redo", nothing, "Redo (Ctrl+Shift+Z)", () => store.redo(), canRedo)}
        ${this.#tool(THEME_ICON[view.theme], nothing, `Theme: ${view.theme}. Change to ${NEXT_THEME[view.theme]}`, () => store.setView({ theme: NEXT_THEME[view.theme] }), true)}
        ${this.#tool("print", nothing, "Print this page", () => print(), true, "print")}
      </div>
      <div class="edit controls">
        <button
          type="button"
          class="worded"
          data-testid="edit-instrument"
          aria-expanded=${editing ? "true" : "false"}
          aria-pressed=${editing ? "true" : "false"}
          aria-label="Edit instrument"
          title="Edit instrument"
          @click=${() => router.go(editing ? "explore" : "edit")}
        >
          ${icon("edit")}<span class="word">Edit instrument</span>
        </button>
      </div>
    `;
  }

  #job(id: string | undefined) {
    const { row } = this.page.job.parts;
    if (id === undefined) return "no job open";
    if (row === null) return "job";
    return html`${row.deleted === null ? "job" : "deleted job"} <b>${row.title.trim() || "Untitled"}</b>`;
  }

  #tool(
    picture: string,
    word: string | typeof nothing,
    label: string,
    act: () => void,
    enabled: boolean,
    kind = "",
  ) {
    const shape = word === nothing ? "square" : "worded";
    return html`
      <button
        type="button"
        class="plain ${shape} ${kind}"
        aria-label=${word === nothing ? label : `${String(word)}: ${label}`}
        title=${label}
        ?disabled=${!enabled}
        @click=${act}
      >
        ${icon(picture)}${word === nothing ? nothing : html`<span class="word">${word}</span>`}
      </button>
    `;
  }
}
