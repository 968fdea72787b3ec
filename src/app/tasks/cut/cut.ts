/** From the present gap and a target to a machining plan: every way there, and the card of the one chosen. */

import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import type { CutPlan } from "../../../bench/cut/cut.ts";
import type { CutWay, CutWayName } from "../../../bench/cut/cutWay.ts";
import { setupAfterCut } from "../../../bench/cut/setupAfterCut.ts";
import { contradictionsKey } from "../../../bench/fit/contradiction.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { gapMm } from "../../../setup/setup.ts";
import { isFinished } from "../../../trial/trial.ts";
import { planNotes, planWords, refusedWords, WAY_TITLE } from "../../../words/bench/cut.ts";
import { type CutCard, cutCard } from "../../../words/bench/cutCard.ts";
import { CONFIRMATION } from "../../../words/bench/cutCautions.ts";
import { trialBeforeCut } from "../../../words/trial/beforeCut.ts";
import { NotesForm } from "../../form/notesForm.ts";
import { doubtNotices } from "../../shell/doubtNotices.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { PrintedCopy } from "../../shell/printedCopy.ts";
import { measuredAtTurns } from "../../state/bench/measuredAtTurns.ts";
import { findingOf } from "../../state/bench/trialFindings.ts";
import { cutForm } from "../../state/notes/cut.ts";
import { reportedTrial } from "../../state/notes/notes.ts";
import { PageElement } from "../../state/page.ts";
import { type JobNames, jobNames } from "../../state/record/jobNames.ts";
import { sameToModel } from "../../work/sameToModel.ts";
import { advicePanel, advicePanelStyles } from "./advicePanel.ts";
import { acknowledgement, confirmation } from "./confirmation.ts";
import "../../chart/chartElement.ts";
import { cutFigure } from "../../../charts/drawings/cutDrawing.ts";
import { cutBetween } from "../../../charts/drawings/shankCut.ts";
import { stagesFigure } from "../../../charts/plots/bench/stagesChart.ts";
import { notice, warning } from "../../shell/look/notice.ts";
import { jobDoubts } from "../../state/bench/doubts.ts";
import { gapEffect } from "../../state/bench/gapEffect.ts";
import { chosenWay, type Order, orderOf } from "../../state/bench/order.ts";
import { changeNeeded, cutFigureStyles, presentGap } from "./cutFigures.ts";
import { cutStyles } from "./cutStyles.ts";
import { gaugesPanel, gaugesPanelStyles } from "./gaugesPanel.ts";
import { limitFields, orderFormStyles, targetField } from "./orderForm.ts";
import { capital, wayCard, wayCardStyles } from "./wayCard.ts";
import { WorkCard } from "./workCard.ts";
import { wrapPanel, wrapPanelStyles } from "./wrapPanel.ts";

@customElement("annulus-cut")
export class Cut extends PageElement {
  readonly #paper = new PrintedCopy(this, new WorkCard());
  readonly #form = new NotesForm(this, "cut", cutForm);
  #order: Order = { plan: null, problems: {}, doubts: [], isWaiting: false };
  #names!: JobNames;
  /** The plan and the way that the person has confirmed, in full: another one is not confirmed. */
  @state() private confirmed: string | null = null;

  static override styles = [
    controls,
    sheetStyles,
    cutStyles,
    cutFigureStyles,
    orderFormStyles,
    wayCardStyles,
    gaugesPanelStyles,
    wrapPanelStyles,
    advicePanelStyles,
  ];

  protected override willUpdate(): void {
    const { setup, notes } = this.page.store.parts.document;
    const { unit } = this.page.store.parts.view;
    this.#names = jobNames({
      document: { setup, notes },
      view: this.page.store.parts.view,
      row: this.page.job.parts.row,
    });
    this.#order = orderOf(setup, this.#form.notes, jobDoubts({ setup, notes }, unit));
    if (this.confirmed !== this.#inFull()) this.confirmed = null;
  }

  override render() {
    const { setup, gapMm: chosenGapMm } = this.page.store.parts.document;
    const { unit } = this.page.store.parts.view;
    const { plan } = this.#order;
    return html`
      <main>
        ${this.#trialFirst()}
        <div class="figures">${presentGap(setup, unit)} ${targetField(this.#form, this.#order, chosenGapMm)} ${changeNeeded(plan, unit)}</div>
        ${limitFields(this.#form, this.#order)}
        ${this.#doubts()}
        <div class="answer" aria-live="polite">${this.#answer(plan)}</div>
        ${plan?.outcome === "plan" ? this.#plan(plan) : nothing}
        ${wrapPanel(this.#form, setup, plan?.targetMm)}
        ${advicePanel()}
        ${gaugesPanel(this.#form, setup, plan?.targetMm)}
      </main>
    `;
  }

  protected override updated(): void {
    const way = this.#chosenWay();
    const card = way && this.#openCard(way);
    const { view } = this.page.store.parts;
    this.#paper.show(card ? { card, names: this.#names, unit: view.unit } : null);
  }

  /** What stands above the ways: what is missing, why there is no plan, what to know of the one there is. */
  #answer(plan: CutPlan | null) {
    if (!plan)
      return Object.keys(this.#order.problems).length > 0
        ? warning("Correct the marked field, and the plan appears.")
        : notice("Type the gap to reach, or take one of the two offered: your options appear here.");
    if (plan.outcome === "plan") return this.#effect(plan);
    const words = planWords(plan).join(" ");
    return plan.outcome === "refused"
      ? warning(words, { testId: "no-plan" })
      : notice(words, { sign: "check", testId: "no-plan" });
  }

  #doubts() {
    const { doubts, isWaiting } = this.#order;
    if (doubts.length === 0) return nothing;
    const { unit } = this.page.store.parts.view;
    return html`
      <section class="doubts" aria-label="What contradicts the gap">
        ${doubtNotices(doubts, unit)}
        ${acknowledgement(!isWaiting, (isKnown) =>
          this.#form.write({ acknowledged: isKnown ? contradictionsKey(doubts) : "" }),
        )}
      </section>
    `;
  }

  /** A trial comes before a cut: whether one was played, and what it found. */
  #trialFirst() {
    const { notes, setup } = this.page.store.parts.document;
    const trial = reportedTrial(notes);
    const sealed = notes.trial.trials.find((one) => !isFinished(one)) ?? null;
    const last = trial && {
      trial,
      finding: findingOf(trial),
      measured: measuredAtTurns(trial, notes, instrumentOf(setup)),
    };
    return html`
      <p class="notice trial" data-testid="trial-first">
        ${icon(trial ? "check" : "info")}
        <span>${trialBeforeCut(last, sealed, notes.listen.takes, this.page.store.parts.view.unit)} <a href="#trial">Go to Trial</a></span>
      </p>
    `;
  }

  #effect(plan: CutPlan) {
    const { setup } = this.page.store.parts.document;
    const { sweep } = this.page.model.parts;
    const isNew =
      sweep.value !== null && !sweep.stale && sweep.of !== null && sameToModel(sweep.of.setup, setup);
    const words = isNew
      ? gapEffect({
          sweep: sweep.value,
          fromMm: plan.gapMm!,
          toMm: plan.targetMm!,
          thresholds: setup.thresholds,
          unit: plan.unit,
        })
      : null;
    return html`
      <div class="effect" data-testid="effect">
        <h2>What it does, before anyone cuts</h2>
        <p>
          ${words ?? (isNew ? "One of the two gaps lies beyond those that the model has swept." : "The model is still working it out.")}
          ${plan.changeMm! > 0 ? "That is for a shank that stands further out; a shortened one has another exit bore as well, which is to be modelled." : nothing}
        </p>
        <button type="button" class="controls" data-testid="see" @click=${() => this.#see(plan)}>See what it does</button>
      </div>
    `;
  }

  #plan(plan: CutPlan) {
    const { unit } = this.page.store.parts.view;
    const way = this.#chosenWay();
    return html`
      <section>
        <h2>Ways to ${plan.changeMm! < 0 ? "less" : "more"} gap</h2>
        ${planNotes(plan).map((line) => notice(line))}
        <div class="ways">
          ${plan.ways.map((one) =>
            wayCard(one, plan, {
              isChosen: one.name === way?.name,
              unit,
              isWaiting: this.#order.isWaiting,
              choose: () => this.#form.write({ way: one.name === way?.name ? null : one.name }),
            }),
          )}
        </div>
      </section>
      ${way ? this.#work(plan, way) : nothing}
    `;
  }

  /** The way chosen: what becomes of the shank, and, once what cannot be undone is confirmed, the stages and the card. */
  #work(plan: CutPlan, way: CutWay) {
    const { setup } = this.page.store.parts.document;
    const after = setupAfterCut(setup, plan, way.name);
    const card = this.#openCard(way);
    return html`
      <section class="work" data-testid="work" aria-labelledby="work">
        <div class="head apart">
          <h2 id="work">${capital(WAY_TITLE[way.name])}</h2>
          <div class="actions controls">
            <button type="button" data-testid="model" @click=${() => this.#modelCut(plan, way.name)}>Model this cut</button>
            ${card ? html`<button type="button" data-testid="print" @click=${() => print()}>${icon("print")}Print the card</button>` : nothing}
          </div>
        </div>
        <div class="columns">
          ${
            "setup" in after && way.name !== "stop"
              ? html`<annulus-chart .figure=${cutFigure} .data=${cutBetween(setup, after.setup)}></annulus-chart>`
              : nothing
          }
          ${
            card && way.stages.length > 0
              ? html`<annulus-chart .figure=${stagesFigure} .data=${{ ...way, targetMm: plan.targetMm, limitsMm: plan.limitsMm }}></annulus-chart>`
              : nothing
          }
        </div>
        ${
          !way.isReversible
            ? confirmation(CONFIRMATION, this.confirmed !== null, (isConfirmed) => {
                this.confirmed = isConfirmed ? this.#inFull() : null;
              })
            : nothing
        }
        ${
          card
            ? html`<annulus-work-card data-testid="card" .card=${card} .names=${this.#names} .unit=${plan.unit}></annulus-work-card>`
            : nothing
        }
      </section>
    `;
  }

  #chosenWay(): CutWay | undefined {
    return chosenWay(this.#order, this.#form.notes);
  }

  #openCard(way: CutWay): CutCard | null {
    if (!way.isReversible && this.confirmed === null) return null;
    return cutCard(this.#order.plan!, way.name, this.#order.doubts) ?? null;
  }

  #inFull(): string | null {
    const way = this.#chosenWay();
    return way ? JSON.stringify([way.name, this.#order.plan, this.#order.doubts]) : null;
  }

  #see({ gapMm: presentMm, targetMm }: CutPlan): void {
    const { store } = this.page;
    store.setReference(presentMm!, { commit: false });
    store.setGap(targetMm!);
    this.page.router.go("explore");
  }

  #modelCut(plan: CutPlan, name: CutWayName): void {
    const { store } = this.page;
    const { setup } = this.page.store.parts.document;
    const after = setupAfterCut(setup, plan, name);
    if ("refused" in after) {
      store.say("error", refusedWords(after.refused, plan.unit));
      return;
    }
    store.setReference(gapMm(setup), { commit: false });
    store.setSetup(after.setup);
    store.say(
      "note",
      "The setup is now as it would be after this work, for you to look at. Undo brings your own and its plan back: print the report from those.",
    );
    this.page.router.go("explore");
  }
}
