/** The lips that playing is modelled with: what each parameter is, where its value comes from, and a field to change it. */
import { html, type TemplateResult } from "lit";
import { LIP_PARAMETERS, MASS_REFERENCE_HZ } from "../../../study/feel/lipParameters.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import type { WriteEvent } from "../../form/entry.ts";
import { icon } from "../../shell/look/icon.ts";
import { LIP_LENGTHS, type LipName, NO_PLAYING, type PlayNotes } from "../../state/notes/playNotes.ts";
import { PRESSURE, readField, readLip } from "../../work/feelQuestion.ts";

export interface LipsForm {
  readonly notes: PlayNotes;
  /** The field under a hand: what is wrong with it is said when it is finished. */
  readonly typing: string;
  readonly write: (field: string, notes: PlayNotes, done: boolean) => void;
}

const LABELS: Partial<Record<LipName, string>> = {
  massPerArea: `Mass per area at ${MASS_REFERENCE_HZ} Hz`,
  massExponent: "Mass exponent e, mass ∝ 1/fᵉ",
  quality: "Quality factor of the lips alone",
  restOpening: "Opening at rest",
  width: "Width of the opening",
};

export const hasOwnLips = ({ lips, pressure }: PlayNotes): boolean =>
  [pressure, ...Object.values(lips)].some((text) => text.trim() !== "");

/** Of the parameters a person has changed, none is kept. */
export const withUsualLips = (notes: PlayNotes): PlayNotes => ({
  ...notes,
  lips: NO_PLAYING.lips,
  pressure: NO_PLAYING.pressure,
});

export function lipsForm({ notes, typing, write }: LipsForm): TemplateResult {
  const problem = (field: string, read: ReturnType<typeof readLip>) =>
    typing !== field && "refused" in read ? read.refused : "";
  return html`
    <div class="form" role="group" aria-label="Lips and breath">
      ${(Object.keys(LIP_PARAMETERS) as LipName[]).map(
        (name) => html`
          <div>
            <annulus-entry
              data-testid="lips-${name}"
              .label=${LABELS[name] ?? LIP_PARAMETERS[name].label}
              .text=${notes.lips[name]}
              .unit=${unitOf(name, notes.unit)}
              .hint=${usually(name, notes.unit)}
              .problem=${problem(name, readLip(notes, name))}
              @write=${({ detail }: WriteEvent) =>
                write(name, { ...notes, lips: { ...notes.lips, [name]: detail.text } }, detail.done)}
            ></annulus-entry>
            <p class="small">${LIP_PARAMETERS[name].source}</p>
          </div>
        `,
      )}
      <div>
        <annulus-entry
          data-testid="lips-pressure"
          label="Blown at"
          .text=${notes.pressure}
          .unit=${"× each note's threshold"}
          .hint=${`usually ${PRESSURE.usual}`}
          .problem=${problem("pressure", readField(notes.pressure, PRESSURE))}
          @write=${({ detail }: WriteEvent) => write("pressure", { ...notes, pressure: detail.text }, detail.done)}
        ></annulus-entry>
        <p class="small">A soft note, clear of its threshold: own choice, no source. Both gaps are blown alike.</p>
      </div>
    </div>
    <div class="actions">
      <button
        type="button"
        data-testid="usual-lips"
        ?disabled=${!hasOwnLips(notes)}
        @click=${() => write("", withUsualLips(notes), true)}
      >
        ${icon("reset")}Usual lips
      </button>
    </div>
  `;
}

const isLength = (name: LipName): boolean => LIP_LENGTHS.includes(name);

function unitOf(name: LipName, unit: LengthUnit): string {
  if (isLength(name)) return unit;
  return LIP_PARAMETERS[name].unit === "1" ? "" : LIP_PARAMETERS[name].unit;
}

function usually(name: LipName, unit: LengthUnit): string {
  const { value, range } = LIP_PARAMETERS[name];
  const text = (x: number) => (isLength(name) ? formatLength(1000 * x, unit) : `${x}`);
  const bare = (x: number) => text(x).replace(` ${unit}`, "");
  return `usually ${text(value)} (${bare(range[0])} to ${bare(range[1])})`;
}
