/** Leadpipes, mouthpieces or whole instruments side by side before any of them is built. */

import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { noteText } from "../../../words/instruments.ts";
import { lateStyles } from "../../chart/lateStyles.ts";
import { controls } from "../../shell/look/controls.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { PageElement } from "../../state/page.ts";
import { comparison } from "../../work/comparison.ts";
import "./candidates/addCandidate.ts";
import "./bellTrustPanel.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { GAP_KIND } from "../../../words/gapKinds.ts";
import { isSound, type Listed, listed } from "../../state/bench/candidates.ts";
import { commonGap, namedGaps } from "../../state/bench/namedGaps.ts";
import "./candidates/candidateList.ts";
import { type Choice, NotesForm } from "../../form/notesForm.ts";
import { compareForm } from "../../state/notes/compare.ts";
import { comparable, questionOf, RESONANCES, readGoal } from "./compareAsked.ts";
import type { Shown } from "./comparedCandidates.ts";
import { compareStyles } from "./compareStyles.ts";
import "./design/designPanel.ts";
import "./making/makingPanel.ts";
import "./measured/measuredPanel.ts";
import "./ranking.ts";
import "./sideBySide.ts";
import "./making/stationsPanel.ts";
import { notice, warning } from "../../shell/look/notice.ts";
import { stoppedLine, workLine, workStyles } from "../../shell/look/workLine.ts";

const tunedOn = (instrument: InstrumentKind): readonly Choice[] => [
  [null, "no, as they are"],
  ...Array.from({ length: RESONANCES }, (_, i) => [i + 1, `on ${noteText(i + 1, instrument)}`] as const),
];

@customElement("annulus-compare")
export class CompareSheet extends PageElement {
  readonly #form = new NotesForm(this, "compare", compareForm);
  readonly #results = comparison();
  /** Number of the candidate that stands out; null until one is chosen: the newest. */
  @state() private chosen: number | null = null;

  static override styles = [controls, sheetStyles, lateStyles, workStyles, compareStyles];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#results.close();
  }

  override render() {
    const { document, view } = this.page.store.state;
    const { notes } = this.#form;
    const all = listed(document, commonGap(document, view.unit));
    const { candidates, reference } = comparable(all, notes);
    const goal = readGoal(notes.goal);
    const standing = { reference: candidates[reference].number, chosen: this.#chosen(all) };
    const chosen = candidates.find(({ number }) => number === standing.chosen) ?? candidates[0];
    const isAlone = candidates.length < 2;
    if (!isAlone) this.#results.ask(questionOf(all, notes, goal.goal));
    const { value, stale } = this.#results.value;
    const shown = isAlone ? [] : this.#shown(all);
    return html`
      <main>
        <section class="stack">
          <h2>Compare before building</h2>
          <p class="about">
            The open setup comes first. Add leadpipes, mouthpieces or bodies as bore tables, leadpipes by their dimensions, or
            whole instruments from their files; a part is put into the open setup.
          </p>
          <annulus-candidates .all=${all} .standing=${standing} @choose=${this.#onChoose}></annulus-candidates>
          <annulus-add-candidate></annulus-add-candidate>
        </section>
        ${
          isAlone
            ? notice("Add a leadpipe to compare.")
            : html`
                <section>
                  <div class="head over">
                    <h2>Side by side</h2>
                    ${this.#asked()}
                    ${this.#work()}
                  </div>
                  ${
                    value
                      ? html`<annulus-side-by-side class=${stale ? "late" : ""} aria-busy=${stale ? "true" : "false"} .shown=${shown} .candidates=${candidates} .standing=${standing} .goal=${goal.goal}></annulus-side-by-side>`
                      : nothing
                  }
                </section>
                <section class=${goal.goal ? "" : "unprinted"}>
                  <h2>Ranking</h2>
                  <annulus-ranking .shown=${stale ? [] : shown} .reading=${goal}></annulus-ranking>
                </section>
              `
        }
        <section class="stack">
          <h2>A measured impedance beside the model</h2>
          <annulus-measured .from=${chosen}></annulus-measured>
        </section>
        <section class="stack">
          <h2>How far to trust the bell</h2>
          <annulus-bell-trust .from=${chosen}></annulus-bell-trust>
        </section>
        <section class="stack unprinted">
          <h2>Design a leadpipe for a goal</h2>
          <annulus-design .from=${chosen} .candidates=${candidates}></annulus-design>
        </section>
        <section class="stack">
          <h2>Stations of the mandrel</h2>
          <annulus-stations .from=${chosen}></annulus-stations>
        </section>
        <section class="stack unprinted">
          <h2>Drawings to make the leadpipe by</h2>
          <annulus-making .from=${chosen}></annulus-making>
        </section>
      </main>
    `;
  }

  #asked() {
    return html`
      <div class="asked controls">
        ${this.#form.choice(["retune"], "Retuned to match", tunedOn(instrumentOf(this.page.store.parts.document.setup)), { testId: "compare-retune" })}
        ${this.#form.choice(["gap"], "Gap", this.#gaps(), { testId: "compare-gap" })}
        ${this.#form.tick(["withHold"], "slot width and pull as well, which takes longer", "with-hold")}
      </div>
    `;
  }

  /** Each at its own, or all at one of the job's, under its name; one that was chosen and is no more is still there to be left. */
  #gaps(): readonly Choice[] {
    const { document, view } = this.page.store.state;
    const { gap } = this.#form.notes;
    const choices: readonly Choice[] = namedGaps(document, view.unit).map(({ at, is, gapMm }) => [
      at,
      `all at ${at === "yours" ? `your gap (${GAP_KIND[is]})` : `the ${at} gap`}: ${formatLength(gapMm, view.unit)}`,
    ]);
    const isThere = gap === "own" || choices.some(([at]) => at === gap);
    return [
      ["own", "each at its own"],
      ...choices,
      ...(isThere ? [] : [[gap, `${gap}: there is none now, each is at its own`] as const]),
    ];
  }

  #work() {
    const { progress, refused, stopped } = this.#results.value;
    return html`
      <div class="work controls" role="status" data-testid="compare-work">
        ${
          refused
            ? warning(refused)
            : progress !== null
              ? workLine({ doing: "Comparing", share: progress, stop: () => this.#results.stop() })
              : stopped
                ? stoppedLine(() => this.#results.again())
                : nothing
        }
      </div>
    `;
  }

  #last: { readonly of: unknown; readonly names: string; readonly shown: readonly Shown[] } | null = null;

  /** The answers under the numbers and names of now; while they are stale, of the candidates they were of. */
  #shown(all: readonly Listed[]): readonly Shown[] {
    const { value, stale } = this.#results.value;
    if (!value) return [];
    const sound = all.filter(isSound);
    const names = stale ? "" : JSON.stringify(sound.map(({ number, name }) => [number, name]));
    if (this.#last?.of === value && (stale || this.#last.names === names)) return this.#last.shown;
    const shown = value.map((answer, i) => {
      const { number, name } = sound[i] ?? { number: i + 1, name: answer.name };
      return { number, name, answer };
    });
    this.#last = { of: value, names, shown };
    return shown;
  }

  #chosen(all: readonly Listed[]): number {
    const sound = all.filter(isSound);
    return sound.find(({ number }) => number === this.chosen)?.number ?? sound[sound.length - 1].number;
  }

  readonly #onChoose = ({ detail }: CustomEvent<number>): void => {
    this.chosen = detail;
  };
}
