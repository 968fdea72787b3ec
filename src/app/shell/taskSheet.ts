/** The sheet of the task at hand. Exploring is there at once; the code of every other task comes when it is first asked for. */

import { html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { fetchArithmetic } from "../form/arithmetic.ts";
import { PageElement } from "../state/page.ts";
import "../tasks/explore/explore.ts";
import { nextStep, nextStepStyles } from "./nextStep.ts";
import type { Task } from "./route.ts";

interface Sheet {
  readonly load: () => Promise<unknown>;
  readonly show: () => TemplateResult;
}

const SHEETS: Readonly<Record<Exclude<Task, "explore" | "edit">, Sheet>> = {
  jobs: { load: () => import("../tasks/jobs/jobs.ts"), show: () => html`<annulus-jobs></annulus-jobs>` },
  measure: {
    load: () => import("../tasks/measure/measure.ts"),
    show: () => html`<annulus-measure></annulus-measure>`,
  },
  fit: { load: () => import("../tasks/fit/fit.ts"), show: () => html`<annulus-fit></annulus-fit>` },
  cut: { load: () => import("../tasks/cut/cut.ts"), show: () => html`<annulus-cut></annulus-cut>` },
  compare: {
    load: () => import("../tasks/compare/compare.ts"),
    show: () => html`<annulus-compare></annulus-compare>`,
  },
  play: { load: () => import("../tasks/play/play.ts"), show: () => html`<annulus-play></annulus-play>` },
  listen: {
    load: () => import("../tasks/listen/listen.ts"),
    show: () => html`<annulus-listen></annulus-listen>`,
  },
  resonances: {
    load: () => import("../tasks/resonances/resonances.ts"),
    show: () => html`<annulus-resonances></annulus-resonances>`,
  },
  trial: { load: () => import("../tasks/trial/trial.ts"), show: () => html`<annulus-trial></annulus-trial>` },
  sheet: { load: () => import("../tasks/sheet/sheet.ts"), show: () => html`<annulus-sheet></annulus-sheet>` },
  learn: { load: () => import("../tasks/learn/learn.ts"), show: () => html`<annulus-learn></annulus-learn>` },
};

@customElement("annulus-task-sheet")
export class TaskSheet extends PageElement {
  static override styles = nextStepStyles;
  @state() private there: ReadonlySet<Task> = new Set(["explore", "edit"]);

  protected override willUpdate(): void {
    const { task } = this.page.router.parts;
    if (task !== "explore" && task !== "edit" && !this.there.has(task)) void this.#fetch(task);
  }

  override render() {
    const { task } = this.page.router.parts;
    if (!this.there.has(task)) return nothing;
    const sheet =
      task === "explore" || task === "edit" ? html`<annulus-explore></annulus-explore>` : SHEETS[task].show();
    return html`${sheet}${nextStep(task)}`;
  }

  async #fetch(task: keyof typeof SHEETS): Promise<void> {
    try {
      await Promise.all([SHEETS[task].load(), fetchArithmetic()]);
      this.there = new Set([...this.there, task]);
    } catch {
      this.page.store.say("error", "This task could not be loaded; load the page again. Your work is kept.");
      this.page.router.go("explore");
    }
  }
}
