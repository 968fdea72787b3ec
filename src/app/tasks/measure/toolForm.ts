/** What is known of the tools: their smallest step, what they show at zero, and how sure that is. */
import { html, nothing, type TemplateResult } from "lit";
import type { WriteEvent } from "../../form/entry.ts";
import type { Measurement } from "../../state/bench/measurement.ts";
import type { MeasureNotes, ToolName, ToolNotes } from "../../state/notes/measureNotes.ts";

export interface ToolForm {
  readonly notes: MeasureNotes;
  readonly problems: Measurement["toolProblems"];
  readonly typing: string;
  readonly write: (tool: ToolName, part: keyof ToolNotes, event: WriteEvent) => void;
  readonly share: (sameTool: boolean) => void;
}

export const toolField = (tool: ToolName, part: keyof ToolNotes): string => `${tool}.${part}`;

/** Examples are those of a digital caliper. */
const PARTS = [
  { part: "resolution", label: "Smallest step", example: { mm: "0.01 mm", in: "0.0005 in" } },
  { part: "zero", label: "Shows at zero", example: { mm: "0.02 mm", in: "0.001 in" } },
  {
    part: "zeroUncertainty",
    label: "Its standard uncertainty",
    example: { mm: "0.005 mm", in: "0.0002 in" },
  },
] as const;

export function toolForm(form: ToolForm): TemplateResult {
  const { sameTool } = form.notes;
  return html`
    <section class="stack" aria-label="Tools">
      <label class="switch">
        <input
          type="checkbox"
          data-testid="same-tool"
          .checked=${sameTool}
          @change=${(event: Event) => form.share((event.target as HTMLInputElement).checked)}
        />
        One tool measured both: its zero drops out of the gap
      </label>
      ${tool(form, "depthTool", sameTool ? "Tool, for both lengths" : "Tool for the depth")}
      ${sameTool ? nothing : tool(form, "insertionTool", "Tool for the insertion")}
    </section>
  `;
}

function tool({ notes, problems, typing, write }: ToolForm, name: ToolName, title: string): TemplateResult {
  return html`
    <h3>${title}</h3>
    <p class="printed">${printed(notes[name], notes.unit)}</p>
    <div class="tool" role="group" aria-label=${title}>
      ${PARTS.map(({ part, label, example }) => {
        const field = toolField(name, part);
        return html`
          <annulus-entry
            data-field=${field}
            data-group=${name}
            .label=${label}
            .text=${notes[name][part]}
            .unit=${notes.unit}
            .hint=${`such as ${example[notes.unit]}`}
            .problem=${typing === field ? "" : problems[name][part]}
            @write=${(event: WriteEvent) => write(name, part, event)}
          ></annulus-entry>
        `;
      })}
    </div>
  `;
}

/** On paper a form is a sentence. */
function printed(tool: ToolNotes, unit: string): string {
  const given = PARTS.filter(({ part }) => tool[part].trim() !== "");
  if (given.length === 0) return "nothing given";
  return `${given.map(({ part, label }) => `${label.toLowerCase()} ${tool[part]}`).join(", ")} (${unit})`;
}
