/** The recordings of an opened trial, each with what it was: to listen to by item, and to delete. */

import { css, html, nothing, type PropertyValues } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import { itemLabel } from "../../../../charts/plots/trial/ratingsChart.ts";
import type { Trial } from "../../../../trial/trial.ts";
import { controls } from "../../../shell/look/controls.ts";
import { Recordings } from "../../../sound/recordings.ts";
import { PageElement } from "../../../state/page.ts";

@customElement("annulus-kept-recordings")
export class KeptRecordings extends PageElement {
  readonly #recordings = new Recordings();
  @property({ attribute: false }) trial!: Trial;
  @state() private addresses: ReadonlyMap<string, string> = new Map();

  static override styles = [
    controls,
    css`
      :host {
        display: block;
        font-size: var(--type-14);
      }
      h3 {
        padding-top: 0.5rem;
        font-size: var(--type-16);
        font-weight: 650;
      }
      ul {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(18rem, 100%), 1fr));
        gap: 0.75rem 1.5rem;
        margin: 0.5rem 0;
        padding: 0;
        list-style: none;
      }
      audio {
        display: block;
        width: 100%;
        height: 2.75rem;
      }
      @media print {
        :host {
          display: none;
        }
      }
    `,
  ];

  override render() {
    const { items, turns } = this.trial;
    if (this.addresses.size === 0) return nothing;
    const recorded = turns
      .filter(({ code }) => this.addresses.has(code))
      .sort((a, b) => (items[a.item].gapMm ?? a.item) - (items[b.item].gapMm ?? b.item));
    return html`
      <h3>Recordings</h3>
      <p class="muted">They are in this browser only, once: no second copy of them is kept, and no backup has them.</p>
      <ul data-testid="recordings">
        ${recorded.map(({ code, item }) => {
          const label = `${code}, ${itemLabel(items[item], this.page.store.parts.view.unit)}`;
          return html`<li>${label}<audio controls src=${this.addresses.get(code)!} aria-label="Recording of ${label}"></audio></li>`;
        })}
      </ul>
      <button type="button" data-testid="delete-recordings" @click=${() => void this.#removeAll()}>Delete all recordings of this trial</button>
    `;
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.get("trial")?.id !== this.trial.id) void this.#load();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#show(new Map());
  }

  async #load(): Promise<void> {
    // where the browser keeps nothing there is nothing to show
    this.#show(await this.#recordings.of(this.trial.id).catch(() => new Map<string, Blob>()));
  }

  async #removeAll(): Promise<void> {
    await this.#recordings.removeAll(this.trial.id);
    this.#show(new Map());
  }

  #show(sounds: ReadonlyMap<string, Blob>): void {
    for (const address of this.addresses.values()) URL.revokeObjectURL(address);
    this.addresses = new Map([...sounds].map(([code, sound]) => [code, URL.createObjectURL(sound)]));
  }
}
