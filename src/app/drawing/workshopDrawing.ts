/** A workshop drawing on the page: how it will look, what is to be known of it, and the files a shop takes. */
import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { type DrawnGauge, drawnGauge, type GaugeOptions } from "../../drawing/gaugeSheet.ts";
import type { FetchTypeface } from "../../drawing/pdfType.ts";
import { toSvg } from "../../drawing/toSvg.ts";
import type { Setup } from "../../setup/setup.ts";
import { GAUGE_ABOUT, GAUGE_TITLE, type GaugeKind, unknownLettersWords } from "../../words/bench/gauges.ts";
import { chartFileName } from "../chart/chartFile.ts";
import { download } from "../shell/download.ts";
import { controls } from "../shell/look/controls.ts";
import { icon } from "../shell/look/icon.ts";
import { notice, warning } from "../shell/look/notice.ts";
import { sheetStyles } from "../shell/look/sheetStyles.ts";

const FILES = ["PDF", "SVG", "DXF"] as const;
type FileKind = (typeof FILES)[number];

@customElement("annulus-workshop-drawing")
export class WorkshopDrawing extends LitElement {
  @property({ attribute: false }) setup!: Setup;
  @property({ attribute: false }) kind: GaugeKind = "plug";
  /** Null while a field cannot be read: the last drawing stays. */
  @property({ attribute: false }) options: GaugeOptions | null = null;
  @state() private failed = "";
  /** Of the file last saved. */
  @state() private toKnow = "";
  #drawn: {
    readonly key: readonly unknown[];
    readonly made: ReturnType<typeof drawnGauge>;
    readonly picture: Node | null;
  } | null = null;

  static override styles = [
    controls,
    sheetStyles,
    css`
      :host {
        display: grid;
        gap: 0.75rem;
        min-width: 0;
        font-size: var(--type-14);
      }
      .scroll {
        overflow: auto;
        border: 1px solid var(--hairline);
        background: var(--paper);
      }
      .scroll svg {
        display: block;
        width: 100%;
        min-width: 56rem;
        height: auto;
      }
      ul {
        margin: 0;
        padding-left: 1.1rem;
        max-width: 110ch;
      }
      li {
        padding-top: 0.2rem;
      }
    `,
  ];

  override render() {
    const drawn = this.#made();
    if (drawn === null) return nothing;
    const { made, picture } = drawn;
    if ("refused" in made)
      return warning(`No drawing: ${made.refused}.`, { role: "status", testId: "no-drawing" });
    return html`
      <p>${GAUGE_ABOUT[made.kind]}</p>
      <div class="actions controls">
        ${FILES.map(
          (file) =>
            html`<button type="button" data-testid="drawing-${file.toLowerCase()}" @click=${() => this.#save(made, file)}>${icon("save")}Save ${file}</button>`,
        )}
        <span class="muted">PDF and SVG print at true size: choose 100 %, not “fit to page”.</span>
      </div>
      ${this.failed ? warning(this.failed, { role: "alert" }) : nothing}
      ${this.toKnow ? notice(this.toKnow, { sign: "warning", role: "status", testId: "unknown-letters" }) : nothing}
      <div class="scroll" tabindex="0" role="region" aria-label=${`Drawing: ${GAUGE_TITLE[made.kind]}`} data-testid="drawing">${picture}</div>
      <ul data-testid="drawing-notes">${[...made.notes, ...made.cautions].map((line) => html`<li>${line}</li>`)}</ul>
    `;
  }

  /** Drawn anew where something that it shows is another. */
  #made() {
    const { setup, kind, options } = this;
    if (options === null) return this.#drawn;
    const { receiver, leadpipe, mouthpiece, provenance, name } = setup;
    const key = [kind, JSON.stringify(options), receiver, leadpipe, mouthpiece, provenance, name];
    if (this.#drawn?.key.every((part, i) => part === key[i])) return this.#drawn;
    const made = drawnGauge(setup, kind, options);
    this.#drawn = { key, made, picture: "refused" in made ? null : pictureOf(made) };
    return this.#drawn;
  }

  /** The writers of files come when one is first asked for. */
  async #save({ sheet }: DrawnGauge, file: FileKind): Promise<void> {
    this.failed = "";
    this.toKnow = "";
    const name = `${chartFileName(this.setup, sheet.name)}.${file.toLowerCase()}`;
    try {
      const saved = await FILE[file](sheet);
      download(saved.file, name);
      this.toKnow = saved.toKnow ?? "";
    } catch (error) {
      this.failed = `${name} was not saved: its part of the page could not be fetched. Try again with a network.`;
      throw error;
    }
  }
}

interface Saved {
  readonly file: Blob;
  readonly toKnow?: string;
}

/** A line of letters that no standard font has needs the page's typeface in the file. */
const fetchTypeface: FetchTypeface = async (name) => {
  const answer = await fetch(TYPEFACE[`/node_modules/@fontsource/source-sans-3/files/${name}`]);
  if (!answer.ok) throw new Error(`${name}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
};
const TYPEFACE = import.meta.glob<string>(
  "/node_modules/@fontsource/source-sans-3/files/source-sans-3-*-{400,700}-normal.woff",
  { query: "?url", import: "default", eager: true },
);

const FILE: Readonly<Record<FileKind, (sheet: DrawnGauge["sheet"]) => Promise<Saved>>> = {
  SVG: async (sheet) => ({ file: new Blob([toSvg(sheet)], { type: "image/svg+xml" }) }),
  PDF: async (sheet) => {
    const { toPdf } = await import("../../drawing/toPdf.ts");
    const { bytes, unknownLetters } = await toPdf(sheet, fetchTypeface);
    return {
      file: new Blob([Uint8Array.from(bytes)], { type: "application/pdf" }),
      ...(unknownLetters.length > 0 && { toKnow: unknownLettersWords(unknownLetters) }),
    };
  },
  DXF: async (sheet) => {
    const { toDxf } = await import("../../drawing/toDxf.ts");
    return { file: new Blob([toDxf(sheet)], { type: "image/vnd.dxf" }) };
  },
};

const pictureOf = ({ sheet }: DrawnGauge): Node =>
  document.importNode(
    new DOMParser().parseFromString(toSvg(sheet, { ink: "currentColor" }), "image/svg+xml").documentElement,
    true,
  );
