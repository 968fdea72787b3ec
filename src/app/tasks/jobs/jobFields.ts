/** What a job is called, each text changed in place; kept while it is typed. */

import { css, html } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { JobHead, JobTexts } from "../../../record/job.ts";
import { PageElement } from "../../state/page.ts";
import "../../form/entry.ts";
import type { WriteEvent } from "../../form/entry.ts";
import { type Field, words } from "../../form/field.ts";

const FIELDS: Readonly<Record<keyof JobTexts, Field<string>>> = {
  title: words("Title"),
  player: words("Player (an alias will do)"),
  instrument: words("Instrument"),
  mouthpiece: words("Mouthpiece"),
};
const NAMES = Object.keys(FIELDS) as (keyof JobTexts)[];
const DELAY_MS = 300;

@customElement("annulus-job-fields")
export class JobFields extends PageElement {
  @property({ attribute: false }) head!: JobHead;
  /** What a hand has typed goes before what the record says, which comes a little later. */
  @state() private typed: Partial<JobTexts> = {};
  #typedOf = "";
  #unsaved: Partial<JobTexts> = {};
  #timer: ReturnType<typeof setTimeout> | undefined;

  static override styles = css`
    :host {
      display: grid;
      /* two in a row, or all four where there is room: never three and one */
      grid-template-columns: repeat(auto-fit, minmax(min(max(14rem, var(--field-least, 34%)), 100%), 1fr));
      gap: 0.5rem 1rem;
    }
  `;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#keep();
  }

  protected override willUpdate(): void {
    if (this.#typedOf === this.head.id) return;
    this.#keep();
    this.#typedOf = this.head.id;
    this.typed = {};
  }

  override render() {
    return NAMES.map(
      (name) => html`
        <annulus-entry
          data-testid="job-${name}"
          .label=${FIELDS[name].label}
          .text=${this.typed[name] ?? this.head[name]}
          @write=${(event: WriteEvent) => this.#write(name, event)}
        ></annulus-entry>
      `,
    );
  }

  #write(name: keyof JobTexts, { detail }: WriteEvent): void {
    this.typed = { ...this.typed, [name]: detail.text };
    this.#unsaved = { ...this.#unsaved, [name]: detail.text };
    clearTimeout(this.#timer);
    if (detail.done) this.#keep();
    else this.#timer = setTimeout(() => this.#keep(), DELAY_MS);
  }

  #keep(): void {
    clearTimeout(this.#timer);
    const texts = this.#unsaved;
    this.#unsaved = {};
    const id = this.#typedOf;
    if (Object.keys(texts).length > 0) void this.page.job.with((record) => record.rename(id, texts));
  }
}
