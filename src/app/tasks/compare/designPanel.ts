/** From a goal to a leadpipe: what it shall be and keep to, the search to be watched and stopped, and what it came to. */

import { css, html, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import type { Designed } from "../../../../workers/compare.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { type Segment, segments } from "../../shell/look/segments.ts";
import { PageElement } from "../../state/page.ts";
import "../../form/entry.ts";
import type { WriteEvent } from "../../form/entry.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { withShankMoved } from "../../state/gapLimits.ts";
import type { DesignNotes, DesignPart } from "../../state/notes/compare.ts";
import { DesignSearch } from "../../work/designSearch.ts";
import { addingStyles } from "./addingStyles.ts";
import { type Candidate, candidateNotes } from "./candidates.ts";
import { compareNotes, takeIn, writeCompare } from "./compareWrite.ts";
import { readDesign, usualLimits } from "./designReading.ts";
import { designResult, missText } from "./designResult.ts";
import "../../chart/chartElement.ts";
import { designFigure } from "../../../charts/plots/compare/designChart.ts";

const GOALS: readonly Segment<boolean>[] = [
  { value: false, text: "targets" },
  { value: true, text: "like another" },
];
const TICKS = [
  ["widens", "widens throughout, so that it can be drawn off a mandrel"],
  ["holdsEntry", "keeps its entry"],
  ["holdsEnd", "keeps its end"],
  ["movesGap", "may have another gap"],
] as const;

@customElement("annulus-design")
export class DesignPanel extends PageElement {
  readonly #search = new DesignSearch();
  /** The one to begin with: the chosen candidate. */
  @property({ attribute: false }) from!: Candidate;
  /** Those it may be designed to equal. */
  @property({ attribute: false }) candidates: readonly Candidate[] = [];
  @state() private typing: DesignPart | "" = "";

  static override styles = [
    controls,
    sheetStyles,
    addingStyles,
    css`
      .work {
        align-items: center;
        min-height: var(--touch);
        font-size: var(--type-14);
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#search.close();
  }

  override render() {
    const { store } = this.page;
    const { parts: state } = store;
    const { design } = compareNotes(store);
    const { unit } = state.view;
    const { setup, number, name } = this.from;
    const { problems, options } = readDesign(design, setup, unit, this.#like());
    const { progress, step: steps, value: result, refused } = this.#search.value;
    const usual = usualLimits(setup);
    const last = steps?.at(-1);
    const entry = (part: DesignPart, label: string, hint: string, entryUnit = "") => html`
      <annulus-entry
        class=${part === "goal" ? "wide" : ""}
        data-testid="design-${part}"
        .label=${label}
        .hint=${hint}
        .unit=${entryUnit}
        .text=${design[part]}
        .problem=${this.typing === part ? "" : (problems[part] ?? "")}
        @write=${(event: WriteEvent) => this.#onWrite(part, event)}
      ></annulus-entry>
    `;
    const length = (mm: number) => `usually ${formatLength(mm, unit)}`;
    return html`
      <div class="adding">
        <div class="stack">
          <p>Begins with ${number} ${name}, the one that stands out. The goal is held against the instrument as it is, its slide at rest.</p>
          <div class="actions controls">${segments<boolean>("What it shall be", GOALS, design.like !== null, (isLike) => this.#write({ like: isLike ? (this.#others()[0]?.number ?? 1) - 1 : null }))}</div>
          <div class="entries" @focusout=${this.#onLeave}>
            ${design.like === null ? entry("goal", "What it shall be", "f, cents, height or spacing of a resonance = value, @ weight: cents2=0, cents5=0@2, height4=32") : this.#likeChoice(design.like)}
            ${entry("knots", "Knots along the leadpipe", `usually ${usual.knots}`)}
            ${entry("starts", "Starts", `usually ${usual.starts}, the present leadpipe first`)}
            ${entry("smallest", "No diameter below", length(usual.smallestMm), unit)}
            ${entry("largest", "No diameter above", length(usual.largestMm), unit)}
            ${
              design.movesGap
                ? [
                    entry("narrowestGap", "No gap below", length(usual.narrowestGapMm), unit),
                    entry("widestGap", "No gap above", length(usual.widestGapMm), unit),
                  ]
                : nothing
            }
          </div>
          <div role="group" aria-label="The leadpipe">
            ${TICKS.map(
              ([key, words]) => html`
                <label class="tick">
                  <input type="checkbox" data-testid="design-${key}" .checked=${design[key]} @change=${(event: Event) => this.#write({ [key]: (event.target as HTMLInputElement).checked })} />
                  ${words}
                </label>
              `,
            )}
          </div>
          <div class="actions work controls" role="status">
            ${
              progress !== null
                ? html`
                    <span>Start ${last?.start ?? 1} of ${options?.restarts ?? last?.of ?? 1}, step ${last?.step ?? 0}${last ? `, best ${missText(last.best)}` : ""}</span>
                    <progress max="1" .value=${last ? (last.start - 1 + Math.min(1, last.step / 40)) / last.of : 0} aria-label="Searching for a leadpipe"></progress>
                    <button type="button" data-testid="design-stop" @click=${() => this.#search.finish()}>${icon("stop")}Stop with the best so far</button>
                  `
                : html`<button type="button" class="main" data-testid="design-start" ?disabled=${options === null} @click=${this.#start}>${icon("play")}Search for it</button>`
            }
          </div>
          ${refused ? html`<p class="notice wrong" role="alert" data-testid="design-refused">${icon("warning")}<span>${refused}</span></p>` : nothing}
        </div>
        <div class="stack">
          ${
            steps
              ? html`<annulus-chart .figure=${designFigure} .data=${steps}></annulus-chart>`
              : html`<p class="muted">Every step of the search will be drawn here. What it finds becomes a candidate above.</p>`
          }
          ${result ? designResult(result, this.from.gapMm, unit) : nothing}
        </div>
      </div>
    `;
  }

  #others(): readonly Candidate[] {
    return this.candidates.filter(({ number }) => number !== this.from.number);
  }

  /** The candidate to be equalled; null where none is chosen, it is broken, or the very one to begin with. */
  #like(): Candidate | null {
    const { like } = compareNotes(this.page.store).design;
    return this.#others().find(({ number }) => number - 1 === like) ?? null;
  }

  #likeChoice(like: number) {
    const others = this.#others();
    const found = this.#like();
    return html`
      <label class="wide">
        Resonances 2 to 10 and their heights as those of
        <select
          data-testid="design-like"
          @change=${(event: Event) => this.#write({ like: Number((event.target as HTMLSelectElement).value) })}
        >
          ${found ? nothing : html`<option value=${like} selected>choose one</option>`}
          ${others.map(({ number, name }) => html`<option value=${number - 1} ?selected=${number - 1 === like}>${number} ${name}</option>`)}
        </select>
        ${others.length === 0 ? html`<span class="reason">Take in a candidate first: there is none beside the one to begin with.</span>` : nothing}
      </label>
    `;
  }

  #onWrite(part: DesignPart, { detail: { text, done } }: WriteEvent): void {
    this.typing = done ? "" : part;
    this.#write({ [part]: text }, done);
  }

  #write(written: Partial<DesignNotes>, commit = true): void {
    const { store } = this.page;
    writeCompare(store, { design: { ...compareNotes(store).design, ...written } }, { commit });
  }

  readonly #onLeave = (): void => {
    this.typing = "";
  };

  readonly #start = async (): Promise<void> => {
    const { store } = this.page;
    const { parts: state } = store;
    const { design } = compareNotes(store);
    const { setup, gapMm } = this.from;
    const like = this.#like();
    const { options } = readDesign(design, setup, state.view.unit, like);
    if (!options) return;
    const found = await this.#search.start({ setup: withShankMoved(setup, gapMm), question: options });
    const goal = like && design.like !== null ? `the resonances of ${like.name}` : design.goal.trim();
    if (found) this.#take(found, goal);
  };

  #take({ setup, missBefore, missAfter }: Designed, goal: string): void {
    const { store } = this.page;
    const count = compareNotes(store).candidates.filter(({ name }) => name.startsWith("Designed")).length;
    const name = `Designed ${count + 1}`;
    const origin = `designed for ${goal}: ${missText(missBefore)} to ${missText(missAfter)} left`;
    if (takeIn(store, [candidateNotes(name, origin.slice(0, 200), setup)]))
      store.say("note", `${name} is among the candidates now. Undo takes it out.`);
  }
}
