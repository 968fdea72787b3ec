/** The entries of the form: where each stands in the file, what it is called, how it is typed. */
import { INSTRUMENT_KINDS } from "../../../setup/instrumentKind.ts";
import { FAMILY } from "../../../words/instruments.ts";
import {
  choice,
  type Field,
  type LengthOptions,
  length as lengthField,
  quantity as quantityField,
  words,
} from "../field.ts";
import {
  cents,
  decibels,
  density,
  number,
  partsPerMillion,
  perCent,
  percent,
  pressure,
  type Quantity,
  speed,
  taper,
  temperature,
  temperatureDifference,
  viscosity,
} from "../quantity.ts";
import { USUAL_MM } from "../usualLengths.ts";
import { limitsAt } from "./limits.ts";

/** A field and where in the setup's file it stands. */
export interface SetupField extends Field<unknown> {
  readonly path: string;
  /** An empty text takes it out of the file. */
  readonly isOptional: boolean;
}

interface Extra extends LengthOptions {
  readonly optional?: true;
}
const at = (
  path: string,
  field: Field<unknown>,
  { optional = false }: { optional?: boolean } = {},
): SetupField => ({
  ...field,
  path,
  isOptional: optional,
});
const length = (path: string, label: string, extra: Extra = {}) => at(path, lengthField(label, extra), extra);
const quantity = (path: string, label: string, of: Quantity, extra: Extra = {}) =>
  at(path, quantityField(label, of, { ...extra, ...limitsAt(path) }), extra);

export const ABOUT: readonly SetupField[] = [
  at("name", words("Name")),
  at(
    "instrument",
    choice(
      "Instrument",
      [["", "not stated"], ...INSTRUMENT_KINDS.map((kind): [string, string] => [kind, FAMILY[kind].name])],
      {
        hint: "Notes are named as its players read them. Not stated: by the name, or by the length of the tube.",
      },
    ),
    { optional: true },
  ),
  at(
    "about",
    words("Notes", { lines: 5, hint: "Where the numbers come from, who measured, what was tried." }),
  ),
  at(
    "units",
    choice("Units of the saved file", [
      ["mm", "millimetres"],
      ["in", "inches"],
    ]),
  ),
];

export const MOUTHPIECE: readonly SetupField[] = [
  length("mouthpiece.insertion", "Insertion", {
    usualMm: USUAL_MM.depth,
    hint: "From the receiver’s face to the shank’s end.",
  }),
  length("mouthpiece.cupDepth", "Cup depth", {
    optional: true,
    usualMm: USUAL_MM.cupDepth,
    hint: "Rim to the start of the throat.",
  }),
  length("mouthpiece.throatEdgeRadius", "Throat edge radius", {
    optional: true,
    usualMm: USUAL_MM.throatEdgeRadius,
    hint: "How far the edge between cup and throat is rounded; 0 is sharp. Only the airflow depends on it.",
  }),
  length("mouthpiece.shankEndDiameter", "Shank end diameter", {
    optional: true,
    usualMm: USUAL_MM.seat,
    hint: "Outside.",
  }),
  quantity("mouthpiece.shankTaper", "Shank taper", taper, {
    optional: true,
    hint: "Diameter change per length, 0.05 or 1:20.",
  }),
];

export const RECEIVER: readonly SetupField[] = [
  length("receiver.depth", "Depth", {
    usualMm: USUAL_MM.depth,
    hint: "From the receiver’s face to the start of the leadpipe.",
  }),
  length("receiver.mouthDiameter", "Mouth diameter", {
    usualMm: USUAL_MM.seat,
    hint: "Inside, at the face.",
  }),
  quantity("receiver.taper", "Taper", taper, { hint: "Diameter change per length, 0.05 or 1:20." }),
];

export const BODY: readonly SetupField[] = [
  length("body.slideAt", "Slide position", {
    optional: true,
    hint: "Where the tuning slide adds its tube, from the start of the body.",
  }),
];

export const CONDITIONS: readonly SetupField[] = [
  quantity("air.temperature", "Room temperature", temperature),
  quantity("air.humidity", "Humidity", percent),
  quantity("air.co2", "Carbon dioxide", partsPerMillion),
  quantity("air.pressure", "Pressure", pressure),
  quantity("air.breath.temperature", "Breath temperature", temperature, {
    optional: true,
    hint: "At the rim. Goes with the reach.",
  }),
  length("air.breath.reach", "Breath reach", {
    optional: true,
    hint: "Over this length the warmth falls to a third (1/e).",
  }),
];

export const CONSTANTS: readonly SetupField[] = [
  quantity("air.density", "Density", density),
  quantity("air.soundSpeed", "Sound speed", speed),
  quantity("air.viscosity", "Viscosity", viscosity),
  quantity("air.heatRatio", "Heat ratio", number),
  quantity("air.prandtl", "Prandtl number", number),
];

export const MODEL: readonly SetupField[] = [
  at(
    "model.junction",
    choice("Steps at the gap", [
      ["modal", "with near fields"],
      ["plane", "plane waves only"],
    ]),
  ),
  at(
    "model.bell",
    choice(
      "Sound in the bell",
      [
        ["automatic", "curved fronts where they serve"],
        ["multimodal", "curved fronts"],
        ["plane", "plane waves"],
      ],
      {
        hint:
          "Curved fronts put the demo’s upper resonances up to 19 cents lower and hardly change what a gap does. They take a " +
          "tenth of a second more, once for every body, and reach no higher than ka = 12 at the mouth: 10 kHz where it is 122 mm wide. Where they serve: " +
          "where they do not, as in a bell told by too few points, the waves are plane. The " +
          "sound that is heard and the waves that are drawn stay plane in the flare.",
      },
    ),
  ),
  at(
    "model.radiation",
    choice("The bell opens into", [
      ["unflanged", "free space"],
      ["flanged", "a wall around it"],
      ["open", "an ideal open end"],
    ]),
  ),
  quantity("model.wallLossFactor", "Wall-loss factor", number, {
    hint: "1 is a smooth, clean bore; rough or dirty ones lose more.",
  }),
];

export const THRESHOLDS: readonly SetupField[] = [
  quantity("thresholds.cents", "Pitch", cents, { hint: "0.2 % of frequency: Nederveen & Dalmont 2008." }),
  quantity("thresholds.decibels", "Peak height", decibels, { hint: "Common practice, no source." }),
  quantity("thresholds.slotCents", "Slot width", cents, {
    hint: "Of the lips. Assumed: no published figure was found; two professionals’ pitch scattered by 6.5 and 8.1 cents (Kopiez 2003), and lips move about three times as far as the pitch.",
  }),
  quantity("thresholds.pressurePercent", "Pressure", perCent, {
    hint: "Backpressure and starting pressure. Common practice, no source.",
  }),
];

/** Standard uncertainties; a place left empty is taken as exact. */
const uncertain = (dimension: string) => `uncertainties["${dimension}"]`;
const optional = { optional: true } as const;
export const UNCERTAINTIES: readonly SetupField[] = [
  length(uncertain("receiver.depth"), "Receiver depth", optional),
  length(uncertain("mouthpiece.insertion"), "Insertion", {
    ...optional,
    hint: "It is set again at every gap, so it counts at both.",
  }),
  length(uncertain("receiver.mouthDiameter"), "Receiver diameter at its face", optional),
  quantity(uncertain("receiver.taper"), "Receiver taper", number, optional),
  length(uncertain("mouthpiece.diameters"), "Mouthpiece diameters", {
    ...optional,
    hint: "An error common to all of them, as a gauge makes it.",
  }),
  length(uncertain("leadpipe.diameters"), "Leadpipe diameters", optional),
  length(uncertain("body.diameters"), "Body diameters", optional),
  quantity(uncertain("air.temperature"), "Room temperature", temperatureDifference, optional),
  quantity(uncertain("model.wallLossFactor"), "Wall-loss factor", number, optional),
];

const sections: Readonly<Record<string, readonly SetupField[]>> = {
  "": ABOUT,
  mouthpiece: MOUTHPIECE,
  receiver: RECEIVER,
  body: BODY,
  air: [...CONDITIONS, ...CONSTANTS],
  model: MODEL,
  "what can be felt": THRESHOLDS,
  "standard uncertainty": UNCERTAINTIES,
};

const byPath = new Map(
  Object.entries(sections).flatMap(([section, fields]) =>
    fields.map((field) => [field.path, { field, section }] as const),
  ),
);

/** The form's entry for a place in the file; undefined for a cell of a profile and for what the form does not have. */
export const fieldAt = (path: string): SetupField | undefined => byPath.get(path)?.field;

/** A place in the file in the form's words: `receiver, mouth diameter`; `leadpipe, row 4, inner diameter`. */
export function placeName(path: string): string {
  const known = byPath.get(path);
  if (known) return [known.section, known.field.label.toLowerCase()].filter(Boolean).join(", ");
  const [, part, row, column] = /^(\w+)\.profile(?:\[(\d+)\])?(?:\[([01])\])?$/.exec(path) ?? [];
  if (part === undefined) return path;
  const words = [part, row === undefined ? "bore profile" : `row ${Number(row) + 1}`];
  if (column !== undefined) words.push(column === "0" ? "position" : "inner diameter");
  return words.join(", ");
}
