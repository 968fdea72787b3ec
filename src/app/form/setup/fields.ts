/** The entries of the form: where each stands in the file, what it is called, how it is typed. */
import {
  cents,
  decibels,
  density,
  number,
  partsPerMillion,
  percent,
  pressure,
  type Quantity,
  speed,
  taper,
  temperature,
  temperatureDifference,
  viscosity,
} from "../quantity.ts";

interface AnyField {
  readonly path: string;
  readonly label: string;
  readonly hint?: string;
}

export interface LengthField extends AnyField {
  readonly kind: "length";
  readonly optional?: true;
}

export interface QuantityField extends AnyField {
  readonly kind: "quantity";
  readonly quantity: Quantity;
  readonly optional?: true;
}

export interface TextField extends AnyField {
  readonly kind: "text";
  readonly lines: number;
}

export interface ChoiceField extends AnyField {
  readonly kind: "choice";
  readonly choices: readonly (readonly [value: string, words: string])[];
}

export type Field = LengthField | QuantityField | TextField | ChoiceField;

type Extra = { hint?: string; optional?: true };
const length = (path: string, label: string, extra: Extra = {}): LengthField => ({
  kind: "length",
  path,
  label,
  ...extra,
});
const quantity = (path: string, label: string, of: Quantity, extra: Extra = {}): QuantityField => ({
  kind: "quantity",
  path,
  label,
  quantity: of,
  ...extra,
});

export const ABOUT: readonly Field[] = [
  { kind: "text", path: "name", label: "Name", lines: 1 },
  {
    kind: "text",
    path: "about",
    label: "Notes",
    lines: 5,
    hint: "Where the numbers come from, who measured, what was tried.",
  },
  {
    kind: "choice",
    path: "units",
    label: "Units of the saved file",
    choices: [
      ["mm", "millimetres"],
      ["in", "inches"],
    ],
  },
];

export const MOUTHPIECE: readonly Field[] = [
  length("mouthpiece.insertion", "Insertion", { hint: "From the receiver’s face to the shank’s end." }),
  length("mouthpiece.cupDepth", "Cup depth", { optional: true, hint: "Rim to the entry of the throat." }),
  length("mouthpiece.shankEndDiameter", "Shank end diameter", { optional: true, hint: "Outside." }),
  quantity("mouthpiece.shankTaper", "Shank taper", taper, {
    optional: true,
    hint: "Diameter change per length, 0.05 or 1:20.",
  }),
];

export const RECEIVER: readonly Field[] = [
  length("receiver.depth", "Depth", { hint: "From the receiver’s face to the start of the leadpipe." }),
  length("receiver.mouthDiameter", "Mouth diameter", { hint: "Inside, at the face." }),
  quantity("receiver.taper", "Taper", taper, { hint: "Diameter change per length, 0.05 or 1:20." }),
];

export const BODY: readonly Field[] = [
  length("body.slideAt", "Slide position", {
    optional: true,
    hint: "Where the tuning slide adds its tube, from the start of the body.",
  }),
];

export const CONDITIONS: readonly Field[] = [
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

export const CONSTANTS: readonly Field[] = [
  quantity("air.density", "Density", density),
  quantity("air.soundSpeed", "Sound speed", speed),
  quantity("air.viscosity", "Viscosity", viscosity),
  quantity("air.heatRatio", "Heat ratio", number),
  quantity("air.prandtl", "Prandtl number", number),
];

export const MODEL: readonly Field[] = [
  {
    kind: "choice",
    path: "model.junction",
    label: "Steps at the gap",
    choices: [
      ["modal", "with near fields"],
      ["plane", "plane waves only"],
    ],
  },
  {
    kind: "choice",
    path: "model.bell",
    label: "Sound in the bell",
    choices: [
      ["plane", "plane waves"],
      ["multimodal", "curved fronts"],
    ],
    hint:
      "Curved fronts put the demo’s upper resonances up to 26 cents lower and hardly change what a gap does. They take about a " +
      "second more, once for every body, and refuse frequencies above ka = 12 at the mouth: 10 kHz where it is 122 mm wide. The " +
      "sound that is heard and the waves that are drawn stay plane in the flare.",
  },
  {
    kind: "choice",
    path: "model.radiation",
    label: "The bell opens into",
    choices: [
      ["unflanged", "free space"],
      ["flanged", "a wall around it"],
      ["open", "an ideal open end"],
    ],
  },
  quantity("model.wallLossFactor", "Wall-loss factor", number, {
    hint: "1 is a smooth, clean bore; rough or dirty ones lose more.",
  }),
];

export const THRESHOLDS: readonly Field[] = [
  quantity("thresholds.cents", "Pitch", cents, { hint: "A smaller change is called too small to feel." }),
  quantity("thresholds.decibels", "Peak height", decibels),
];

/** Standard uncertainties; a place left empty is taken as exact. */
const uncertain = (dimension: string) => `uncertainties["${dimension}"]`;
const optional = { optional: true } as const;
export const UNCERTAINTIES: readonly Field[] = [
  length(uncertain("receiver.depth"), "Receiver depth", optional),
  length(uncertain("mouthpiece.insertion"), "Insertion", {
    ...optional,
    hint: "Set anew at every gap, so it counts at both.",
  }),
  length(uncertain("receiver.mouthDiameter"), "Receiver mouth diameter", optional),
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

const sections: Readonly<Record<string, readonly Field[]>> = {
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
export const fieldAt = (path: string): Field | undefined => byPath.get(path)?.field;

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
