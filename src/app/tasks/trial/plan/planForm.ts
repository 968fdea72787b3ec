/** The plan: what is tried, how often, what is played, and the chance to find what is cared about before anybody plays. */
import { html, nothing, type TemplateResult } from "lit";
import { type PowerData, powerFigure } from "../../../../charts/plots/trial/powerChart.ts";
import { ERROR_RATE, type Power } from "../../../../trial/power.ts";
import { FEWEST_ITEMS, MOST_ITEMS } from "../../../../trial/trial.ts";
import { balancedRepeats } from "../../../../trial/williams.ts";
import { percent } from "../../../../words/numbers.ts";
import { DECIDED_BY, MEASURED_DECIDES } from "../../../../words/trial/measuredTrial.ts";
import { type Field, length, words } from "../../../form/field.ts";
import type { NotesForm } from "../../../form/notesForm.ts";
import { USUAL_MM } from "../../../form/usualLengths.ts";
import { icon } from "../../../shell/look/icon.ts";
import { notice } from "../../../shell/look/notice.ts";
import { segments } from "../../../shell/look/segments.ts";
import { type Mounting, PLAN_FIELDS, type PlanPart, type TrialKind } from "../../../state/notes/trial.ts";
import type { Answer } from "../../../work/work.ts";
import type { FromJob, PlanRead } from "./planReading.ts";

export interface PlanForm {
  readonly form: NotesForm<"trial">;
  readonly read: PlanRead;
  readonly fromJob: FromJob;
  /** What the scatter of the first takes says of the number of repeats; empty where there is none. */
  readonly measuredPlan: string;
  readonly power: Answer<readonly Power[]>;
  readonly powerData: PowerData | null;
  readonly propose: () => void;
  readonly seal: () => void;
}

/** More are hard to rate with the same care (common practice, no source). */
const MANY_TURNS = 30;

export function planForm(form: PlanForm): TemplateResult {
  const { read } = form;
  const { notes } = form.form;
  return html`
    <section class="columns" aria-label="The plan">
      <div class="stack">
        <h3>What to try</h3>
        ${segments<TrialKind>("What is tried", KINDS, notes.kind, (kind) => form.form.write({ kind }))}
        <p class="muted">
          ${FEWEST_ITEMS} to ${MOST_ITEMS}. ${notes.kind === "gaps" ? "Spread them wide: a best gap between two others can be found, one at the end cannot." : "Shanks, mouthpieces or instruments, by the names you use at the bench."}
        </p>
        ${notes.kind === "gaps" ? html`<div class="actions controls"><button type="button" data-testid="propose" @click=${form.propose}>Propose five gaps around these</button></div>` : nothing}
        <div class="items">${items(form)}</div>
      </div>
      <div class="stack">
        <h3>How to play it</h3>
        ${segments<Mounting>("Who fits what is tried", MOUNTING, notes.mounting, (mounting) => form.form.write({ mounting }))}
        <p class="muted" data-testid="mounting">${MOUNTING_WORDS[notes.mounting]}</p>
        ${field(form, "player", form.fromJob.player ? `From the job; empty is ${form.fromJob.player}.` : undefined)}
        ${field(form, "passages")}
        ${field(form, "repeats", `How often each is played; empty is ${PLAN_FIELDS.repeats.usual}. The order is fully balanced every ${balancedRepeats(form.read.numbers?.items ?? FEWEST_ITEMS)} repeats, and nearly so in between.`)}
        ${form.form.choice(["decidedBy"], "Decided by", Object.entries(DECIDED_BY), { testId: "decided-by" })}
        ${notes.decidedBy === "preference" ? nothing : html`<p class="muted" data-testid="measured-decides">${MEASURED_DECIDES} ${form.measuredPlan}</p>`}
        ${field(form, "difference")}
        ${field(form, "scatter", form.fromJob.scatter === null ? undefined : `Standard deviation of ratings of the same code, in points; empty is ${form.fromJob.scatter}, as in the last trial of this job.`)}
      </div>
    </section>
    <section class="columns" aria-label="Chance to find the difference">
      <div class="stack">
        <h3>Is it worth playing?</h3>
        <p class="lead" data-testid="power" aria-live="polite">${powerWords(form)}</p>
        ${tooMany(read)}
        <div class="actions controls">
          <button type="button" class="seal" data-testid="seal" ?disabled=${read.plan === null} aria-describedby="missing" @click=${form.seal}>Shuffle and lock</button>
        </div>
        <p id="missing" class="muted" data-testid="missing">${
          read.missing ||
          (notes.mounting === "alone"
            ? "The order of the envelopes is shuffled and locked. What each envelope holds stays unknown, to the page as well, until you open them."
            : "The order and the codes are shuffled and locked: neither player nor listener can see what a code stands for.")
        }</p>
      </div>
      ${form.powerData ? html`<annulus-chart .figure=${powerFigure} .data=${form.powerData}></annulus-chart>` : nothing}
    </section>
  `;
}

const KINDS = [
  { value: "gaps", text: "Gaps" },
  { value: "names", text: "Shanks or instruments" },
] as const;

const MOUNTING = [
  { value: "assistant", text: "An assistant" },
  { value: "alone", text: "I play alone" },
] as const;

const MOUNTING_WORDS: Readonly<Record<Mounting, string>> = {
  assistant: "Fits mouthpieces by a card that only the assistant sees, and does not judge.",
  alone:
    "What is tried goes into envelopes that you fill, shuffle and only then letter. The page prints the slips, names an envelope at every turn, and asks what it held when all is rated.",
};

const GAP = length("gap", { usualMm: USUAL_MM.gap });
const NAME: Field<string> = words("name");

/** One empty row behind those that are written, as long as there is room. */
function items({ form, read }: PlanForm): TemplateResult[] {
  const { kind, [kind]: texts } = form.notes;
  const rows = Math.min(MOST_ITEMS, Math.max(FEWEST_ITEMS, texts.length + 1));
  return Array.from({ length: rows }, (_, row) => {
    const label = `${kind === "gaps" ? "gap" : "name"} ${row + 1}`;
    return html`
      <div class="item">
        ${form.entry(kind === "gaps" ? GAP : NAME, [kind, row], read.itemProblems[row], { label })}
        ${texts[row] ? html`<button type="button" class="plain square" aria-label="Remove ${label}" title="Remove" @click=${() => form.remove([kind, row])}>${icon("xmark")}</button>` : nothing}
      </div>
    `;
  });
}

const field = ({ form, read }: PlanForm, part: PlanPart, hint?: string): TemplateResult =>
  form.entry(PLAN_FIELDS[part], [part], read.problems[part], hint === undefined ? {} : { hint });

function powerWords({ read, power }: PlanForm): string {
  const { numbers, repeats } = read;
  if (!numbers || repeats === null) return "The chance appears here when the numbers can be read.";
  if (power.refused) return power.refused;
  const planned = power.stale ? undefined : power.value?.find((one) => one.repeats === repeats);
  if (!planned) return "Working out the chance…";
  const turns = numbers.items * repeats;
  const found =
    planned.chance === 0
      ? "is never found: so few orders decide nothing"
      : `is found in ${percent(planned.chance)} of trials`;
  return (
    `With ${repeats} repeats, ${turns} turns in all, a difference of ${numbers.difference} points of 100 ${found}. ` +
    `Where there is none, one is claimed in at most ${percent(ERROR_RATE)}.`
  );
}

function tooMany({ numbers, repeats }: PlanRead): TemplateResult | typeof nothing {
  const turns = numbers && repeats !== null ? numbers.items * repeats : 0;
  if (turns <= MANY_TURNS) return nothing;
  return notice(
    `${turns} turns are long for lips and ears; play them in two sittings (the trial waits), or try fewer items.`,
  );
}
