/** From a goal to a leadpipe: what it shall be and keep to, the search to be watched and stopped, and what it came to. */

import { html, nothing } from "lit";
import { customElement, property } from "lit/decorators.js";
import type { Designed } from "../../../../../workers/instrument/compare.ts";
import { gapMm } from "../../../../setup/setup.ts";
import { usualLimits } from "../../../../study/design/designDefaults.ts";
import { formatLength } from "../../../../units/formatLength.ts";
import { missText } from "../../../../words/design/designWords.ts";
import { gapKindWords } from "../../../../words/gapKinds.ts";
import { bothUnits } from "../../../../words/numbers.ts";
import { NotesForm } from "../../../form/notesForm.ts";
import { controls } from "../../../shell/look/controls.ts";
import { icon } from "../../../shell/look/icon.ts";
import { type Segment, segments } from "../../../shell/look/segments.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { type Candidate, candidateNotes, takeIn } from "../../../state/bench/candidates.ts";
import { readDesign } from "../../../state/bench/leadpipeDesign.ts";
import {
  compareForm,
  DESIGN_FIELDS,
  DESIGN_GAP_FIELDS,
  type DesignPart,
} from "../../../state/notes/compare.ts";
import { PageElement } from "../../../state/page.ts";
import { DesignSearch } from "../../../work/designSearch.ts";
import { addingStyles } from "../addingStyles.ts";
import { designResult } from "./designResult.ts";
import "../../../chart/chartElement.ts";
import { designFigure } from "../../../../charts/plots/compare/designChart.ts";
import { warning } from "../../../shell/look/notice.ts";
import { workLine, workStyles } from "../../../shell/look/workLine.ts";

const GOALS: readonly Segment<boolean>[] = [
  { value: false, text: "targets" },
  { value: true, text: "like another" },
];
const FIELDS = { ...DESIGN_FIELDS, ...DESIGN_GAP_FIELDS };
const TICKS = [
  ["widens", "widens throughout, so that it can be drawn off a mandrel"],
  ["holdsEntry", "keeps its start"],
  ["holdsEnd", "keeps its end"],
  ["movesGap", "may have another gap"],
] as const;

@customElement("annulus-design")
export class DesignPanel extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  readonly #search = new DesignSearch();
  /** The one to begin with: the chosen candidate. */
  @property({ attribute: false }) from!: Candidate;
  /** Those it may be designed to equal. */
  @property({ attribute: false }) candidates: readonly Candidate[] = [];

  static override styles = [controls, sheetStyles, addingStyles, workStyles];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#search.close();
  }

  override render() {
    const { unit } = this.#form;
    const { design } = this.#form.notes;
    const { setup, number, name } = this.from;
    const { problems, options } = readDesign(design, setup, unit, this.#like());
    const { progress, step: steps, value: result, refused, of } = this.#search.value;
    const last = steps?.at(-1);
    const { smallestMm, largestMm, gap } = usualLimits(setup);
    const usual: Partial<Record<DesignPart, number>> = {
      smallest: smallestMm,
      largest: largestMm,
      narrowestGap: gap.leastMm,
      widestGap: gap.mostMm,
    };
    const ownMm = gapMm(setup);
    const entry = (part: DesignPart) => {
      const usually = usual[part];
      return this.#form.entry(FIELDS[part], ["design", part], problems[part], {
        testId: `design-${part}`,
        ...(usually !== undefined && { hint: `usually ${formatLength(usually, unit)}` }),
      });
    };
    return html`
      <div class="adding">
        <div class="stack">
          <p>Begins with ${number} ${name}, highlighted, at its own gap of ${bothUnits(ownMm, unit)}, ${gapKindWords(setup, ownMm)}. The goal is judged on the instrument as it is, with its slide where it stands.</p>
          <div class="actions controls">${segments<boolean>("Targets", GOALS, design.like !== null, (isLike) => this.#form.writeIn("design", { like: isLike ? (this.#others()[0]?.number ?? 1) - 1 : null }))}</div>
          <div class="entries">
            <div class="wide">${design.like === null ? entry("goal") : this.#likeChoice(design.like)}</div>
            ${(["knots", "starts", "smallest", "largest"] as const).map(entry)}
            ${design.movesGap ? (["narrowestGap", "widestGap"] as const).map(entry) : nothing}
          </div>
          <div role="group" aria-label="The leadpipe">
            ${TICKS.map(([key, words]) => this.#form.tick(["design", key], words, `design-${key}`))}
          </div>
          <div class="actions work controls" role="status">
            ${
              progress !== null
                ? workLine({
                    doing: `Start ${last?.start ?? 1} of ${options?.restarts ?? last?.of ?? 1}, step ${last?.step ?? 0}${last ? `, best ${missText(last.best)}` : ""}`,
                    label: "Searching for a leadpipe",
                    share: last ? (last.start - 1 + Math.min(1, last.step / 40)) / last.of : 0,
                    stop: () => this.#search.finish(),
                    stopWords: "Stop with the best so far",
                    stopId: "design-stop",
                  })
                : html`<button type="button" class="main" data-testid="design-start" ?disabled=${options === null} @click=${this.#start}>${icon("play")}Find a leadpipe</button>`
            }
          </div>
          ${refused ? warning(refused, { role: "alert", testId: "design-refused" }) : nothing}
        </div>
        <div class="stack">
          ${
            steps
              ? html`<annulus-chart .figure=${designFigure} .data=${steps}></annulus-chart>`
              : html`<p class="muted">Every step of the search will be drawn here. What it finds becomes a candidate above.</p>`
          }
          ${result && of ? designResult(result, of.setup, unit) : nothing}
        </div>
      </div>
    `;
  }

  #others(): readonly Candidate[] {
    return this.candidates.filter(({ number }) => number !== this.from.number);
  }

  /** The candidate to be equalled; null where none is chosen, it is broken, or the very one to begin with. */
  #like(): Candidate | null {
    const { like } = this.#form.notes.design;
    return this.#others().find(({ number }) => number - 1 === like) ?? null;
  }

  #likeChoice(like: number) {
    const others = this.#others().map(({ number, name }) => [number - 1, `${number} ${name}`] as const);
    return this.#form.choice(
      ["design", "like"],
      "Resonances 2 to 10 and their heights as those of",
      this.#like() ? others : [[like, "choose one"], ...others],
      {
        testId: "design-like",
        ...(others.length === 0 && {
          reason: "Add a candidate first: there is none beside the one it begins with.",
        }),
      },
    );
  }

  readonly #start = async (): Promise<void> => {
    const { design } = this.#form.notes;
    const { setup } = this.from;
    const like = this.#like();
    const { options } = readDesign(design, setup, this.#form.unit, like);
    if (!options) return;
    const found = await this.#search.start({ setup, question: options });
    const goal = like && design.like !== null ? `the resonances of ${like.name}` : design.goal.trim();
    if (found) this.#take(found, goal);
  };

  #take({ setup, missBefore, missAfter }: Designed, goal: string): void {
    const { store } = this.page;
    const count = this.#form.notes.candidates.filter(({ name }) => name.startsWith("Designed")).length;
    const name = `Designed ${count + 1}`;
    const origin = `designed for ${goal}: ${missText(missBefore)} to ${missText(missAfter)} left`;
    if (takeIn(store, [candidateNotes(name, origin.slice(0, 200), setup)]))
      store.say("note", `${name} is among the candidates now. Undo takes it out.`);
  }
}
