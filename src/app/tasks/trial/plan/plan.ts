/** The plan under a hand: what is typed, what the worker says of its power, and the seal. */

import { html } from "lit";
import { customElement } from "lit/decorators.js";
import type { PowerData } from "../../../../charts/plots/trial/powerChart.ts";
import { instrumentOf } from "../../../../setup/instrumentOf.ts";
import { sealTrial } from "../../../../trial/seal.ts";
import { MOST_REPEATS } from "../../../../trial/trial.ts";
import { percent } from "../../../../words/numbers.ts";
import { planWords } from "../../../../words/trial/measuredTrial.ts";
import { NotesForm } from "../../../form/notesForm.ts";
import { controls } from "../../../shell/look/controls.ts";
import { sheetStyles } from "../../../shell/look/sheetStyles.ts";
import { listenedIn } from "../../../state/bench/listened.ts";
import { lastFinished, trialForm, withSealed } from "../../../state/notes/trial.ts";
import { PageElement } from "../../../state/page.ts";
import { jobNames } from "../../../state/record/jobNames.ts";
import "../../../chart/chartElement.ts";
import { trialStyles } from "../trialStyles.ts";
import { powerWork } from "../trialWork.ts";
import { planForm } from "./planForm.ts";
import { type FromJob, type PlanRead, readPlan } from "./planReading.ts";
import { scatterOf } from "./playerScatter.ts";
import { spreadGaps } from "./proposals.ts";

const AIM = 0.8;
/** Repeats whose power is shown. */
const FEW = 2;
const MANY = 8;

@customElement("annulus-trial-plan")
export class TrialPlanSheet extends PageElement {
  static override styles = [controls, sheetStyles, trialStyles];
  readonly #power = powerWork();
  readonly #form = new NotesForm(this, "trial", trialForm);
  /** The drawing compares by identity. */
  #drawn: { readonly of: readonly unknown[]; readonly data: PowerData } | null = null;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#power.close();
  }

  override render() {
    const { setup } = this.page.store.parts.document;
    const { notes } = this.#form;
    const fromJob = this.#fromJob();
    const read = readPlan(notes, setup, fromJob);
    return html`
      <div class="intro">
        <h2>Blind trial</h2>
        <p>Which gap does this player really prefer, if any? Nobody who plays or judges knows which one it is, and the order favours none.</p>
      </div>
      ${planForm({
        form: this.#form,
        read,
        fromJob,
        measuredPlan: this.#measuredPlan(),
        power: this.#power.value,
        powerData: this.#powerData(read),
        propose: () => this.#form.write({ gaps: spreadGaps(this.page.store.parts.document, notes.unit) }),
        seal: () => this.#seal(read),
      })}
    `;
  }

  protected override updated(): void {
    const { setup } = this.page.store.parts.document;
    const { numbers, repeats } = readPlan(this.#form.notes, setup, this.#fromJob());
    if (numbers && repeats !== null) this.#power.ask({ ...numbers, repeats: repeatsAround(repeats) });
  }

  /** Whose job is open, and how that player's ratings scattered. */
  #fromJob(): FromJob {
    const { document, view } = this.page.store.parts;
    const { player } = jobNames({ document, view, row: this.page.job.parts.row });
    return { player, scatter: scatterOf(lastFinished(document.notes.trial), player) };
  }

  /** By the takes kept so far of what decides. */
  #measuredPlan(): string {
    const { setup, notes } = this.page.store.parts.document;
    const { decidedBy } = this.#form.notes;
    return listenedIn(notes, instrumentOf(setup))
      .filter(({ test }) => test === decidedBy)
      .map(planWords)
      .join(" ");
  }

  #powerData({ repeats }: PlanRead): PowerData | null {
    const { value } = this.#power.value;
    if (!value) return null;
    const of = [value, repeats];
    if (!this.#drawn || of.some((one, i) => one !== this.#drawn!.of[i])) {
      const words = value.map((one) => `${one.repeats} repeats: ${percent(one.chance)}.`).join(" ");
      this.#drawn = { of, data: { powers: value, chosenRepeats: repeats, aim: AIM, words } };
    }
    return this.#drawn.data;
  }

  #seal({ plan }: PlanRead): void {
    if (!plan) return;
    const [seed, ...name] = crypto.getRandomValues(new Uint32Array(3));
    const id = name.map((number) => number.toString(36)).join("-");
    const { store } = this.page;
    store.setNotes("trial", withSealed(this.#form.notes, sealTrial({ ...plan, id }, seed)));
  }
}

/** The few that are usual, and up to what is planned. */
const repeatsAround = (planned: number): number[] => {
  const most = Math.min(MOST_REPEATS, Math.max(MANY, planned));
  return Array.from({ length: most - FEW + 1 }, (_, i) => FEW + i);
};
