/** A chart's menu: take it away as a file, see its numbers, read what is drawn. Tells by `pick` what was chosen. */
import { css, html, LitElement } from "lit";
import { customElement, property, query } from "lit/decorators.js";
import { controls } from "../shell/look/controls.ts";
import { icon } from "../shell/look/icon.ts";

export type ChartAction = "svg" | "png" | "csv" | "table" | "about";

@customElement("annulus-chart-menu")
export class ChartMenu extends LitElement {
  /** The chart's name, for who hears the page. */
  @property() label = "";
  @property({ type: Boolean }) showsTable = false;
  @property({ type: Boolean }) showsAbout = false;
  @query("details") private readonly details!: HTMLDetailsElement;

  static override styles = [
    controls,
    css`
      :host {
        position: relative;
        display: block;
      }
      summary {
        list-style: none;
      }
      summary::-webkit-details-marker {
        display: none;
      }
      .menu {
        position: absolute;
        right: 0;
        bottom: calc(100% + 2px);
        z-index: 20;
        display: flex;
        flex-direction: column;
        min-width: 13rem;
        padding: 0.25rem;
        background: var(--paper);
        border: 1px solid var(--ink);
        border-radius: 3px;
        box-shadow: 0 4px 16px rgb(0 0 0 / 18%);
      }
      .menu button {
        justify-content: flex-start;
      }
    `,
  ];

  override render() {
    return html`
      <details @keydown=${this.#onKey} @focusout=${this.#onFocusOut}>
        <summary class="button plain square" aria-label="Menu: ${this.label}" title="Menu">${icon("ellipsis")}</summary>
        <div class="menu">
          ${this.#item("svg", "image", "Save as SVG")} ${this.#item("png", "image", "Save as PNG")}
          ${this.#item("csv", "save", "Save numbers as CSV")}
          ${this.#item("table", "table", this.showsTable ? "Hide table" : "Show table")}
          ${this.#item("about", "info", this.showsAbout ? "Hide what is drawn here" : "What is drawn here")}
        </div>
      </details>
    `;
  }

  #item(action: ChartAction, picture: string, text: string) {
    return html`<button type="button" class="plain" data-action=${action} @click=${() => this.#pick(action)}>
      ${icon(picture)}${text}
    </button>`;
  }

  #pick(action: ChartAction): void {
    this.#close();
    this.dispatchEvent(new CustomEvent<ChartAction>("pick", { detail: action }));
  }

  #close(): void {
    const held = this.shadowRoot?.activeElement;
    this.details.open = false;
    if (held) this.shadowRoot!.querySelector("summary")!.focus();
  }

  readonly #onKey = (event: KeyboardEvent): void => {
    if (event.key !== "Escape" || !this.details.open) return;
    event.stopPropagation();
    this.#close();
  };

  readonly #onFocusOut = ({ relatedTarget }: FocusEvent): void => {
    if (!(relatedTarget instanceof Node && this.shadowRoot!.contains(relatedTarget)))
      this.details.open = false;
  };
}
