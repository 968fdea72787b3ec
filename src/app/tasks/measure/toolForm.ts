/** What is known of the tools: their smallest step, what they show at zero, and how sure that is. */
import { html, nothing, type TemplateResult } from "lit";
import type { NotesForm } from "../../form/notesForm.ts";
import type { Measurement } from "../../state/bench/measurement.ts";
import { TOOL_FIELDS, type ToolName, type ToolNotes } from "../../state/notes/measure.ts";

type MeasureForm = NotesForm<"measure">;
type Problems = Measurement["toolProblems"];

const PARTS = ["resolution", "zero", "zeroUncertainty"] as const;

export function toolForm(form: MeasureForm, problems: Problems): TemplateResult {
  const { sameTool } = form.notes;
  return html`
    <section class="stack" aria-label="Tools">
      ${form.tick(["sameTool"], "One tool measured both: its zero error cancels", "same-tool")}
      ${tool(form, problems, "depthTool", sameTool ? "Tool, for both lengths" : "Tool for the depth")}
      ${sameTool ? nothing : tool(form, problems, "insertionTool", "Tool for the insertion")}
    </section>
  `;
}

function tool(form: MeasureForm, problems: Problems, name: ToolName, title: string): TemplateResult {
  return html`
    <h3>${title}</h3>
    <p class="printed">${printed(form.notes[name], form.unit)}</p>
    <div class="tool" role="group" aria-label=${title}>
      ${PARTS.map((part) => form.entry(TOOL_FIELDS[name][part], [name, part], problems[name][part], { group: name }))}
    </div>
  `;
}

/** On paper a form is a sentence. */
function printed(tool: ToolNotes, unit: string): string {
  const given = PARTS.filter((part) => tool[part].trim() !== "");
  if (given.length === 0) return "nothing given";
  const { depthTool } = TOOL_FIELDS;
  return `${given.map((part) => `${depthTool[part].label.toLowerCase()} ${tool[part]}`).join(", ")} (${unit})`;
}
