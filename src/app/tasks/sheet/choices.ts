/** For whom a sheet is, on which paper, and what the classroom's draws. */
import { html, nothing, type TemplateResult } from "lit";
import { CLASSROOM_CHARTS, type ClassroomChart } from "../../../study/report/sheetParagraphs.ts";
import { isFinished } from "../../../trial/trial.ts";
import { standingText, triedText } from "../../../words/trial/listed.ts";
import { segments } from "../../shell/look/segments.ts";
import { PAPERS, type SheetNotes } from "../../state/notes/sheet.ts";
import { finishedTrials, type TrialNotes } from "../../state/notes/trial.ts";

const FORMS = [
  { value: "workshop", text: "For the player" },
  { value: "classroom", text: "For the class" },
] as const;
const PAPER_NAMES = PAPERS.map((value) => ({ value, text: value }));
const TURNS = [
  { value: false, text: "Upright" },
  { value: true, text: "On its side" },
] as const;
const CHARTS: Readonly<Record<ClassroomChart, string>> = {
  height: "peak height against gap",
  spacing: "spacing against gap",
  curves: "|Z| at both gaps",
};

export const choices = (
  notes: SheetNotes,
  trial: TrialNotes,
  write: (part: Partial<SheetNotes>) => void,
): TemplateResult => html`
  ${segments("For whom", FORMS, notes.form, (form) => write({ form }))}
  ${segments("Paper", PAPER_NAMES, notes.paper, (paper) => write({ paper }))}
  ${notes.form === "workshop" && finishedTrials(trial).length > 1 ? trialChoice(notes, trial, write) : nothing}
  ${
    notes.form === "classroom"
      ? html`
          ${segments("Which way up", TURNS, notes.isLandscape, (isLandscape) => write({ isLandscape }))}
          <label class="chart">
            Chart
            <select
              data-testid="sheet-chart"
              @change=${({ target }: Event) => write({ chart: (target as HTMLSelectElement).value as ClassroomChart })}
            >
              ${CLASSROOM_CHARTS.map((chart) => html`<option value=${chart} ?selected=${chart === notes.chart}>${CHARTS[chart]}</option>`)}
            </select>
          </label>
        `
      : nothing
  }
`;

const trialChoice = (
  { trial: chosen }: SheetNotes,
  notes: TrialNotes,
  write: (part: Partial<SheetNotes>) => void,
): TemplateResult => html`
  <label class="chart">
    Blind trial
    <select
      data-testid="sheet-trial"
      @change=${({ target }: Event) => write({ trial: (target as HTMLSelectElement).value })}
    >
      <option value="" ?selected=${chosen === ""}>the last finished</option>
      ${notes.trials.map((one, i) =>
        isFinished(one)
          ? html`<option value=${one.id} ?selected=${one.id === chosen}>${`Trial ${i + 1}: ${triedText(one)}, ${standingText(one, [])}`}</option>`
          : nothing,
      )}
    </select>
  </label>
`;
