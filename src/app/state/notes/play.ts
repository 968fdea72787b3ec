/** The lips, the breath and the leap that playing is modelled with; an empty text is the usual value. */
import { LIP_PARAMETERS, MASS_REFERENCE_HZ, type OneMassLips } from "../../../study/feel/lipParameters.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { InputError } from "../../../units/inputError.ts";
import { type LengthUnit, parseLengthMm } from "../../../units/length.ts";
import { type Field, plainNumber, quantity } from "../../form/field.ts";
import { type KeptBy, keptForm, keptLength, oneOf, record } from "../../form/kept.ts";
import { number } from "../../form/quantity.ts";

export type LipName = keyof OneMassLips;

const LABELS: Readonly<Record<LipName, string>> = {
  massPerArea: `Mass per area at ${MASS_REFERENCE_HZ} Hz`,
  massExponent: "Mass exponent e, mass ∝ 1/fᵉ",
  quality: "Quality factor of the lips alone",
  restOpening: "Opening at rest",
  width: "Width of the opening",
};

const usually = (name: LipName, text: (x: number) => string, bare = text): string => {
  const { value, range } = LIP_PARAMETERS[name];
  return `usually ${text(value)} (${bare(range[0])} to ${bare(range[1])})`;
};

function lipNumber(name: LipName): Field<number> {
  const { unit, value, allowed } = LIP_PARAMETERS[name];
  const of = { ...number, unit: unit === "1" ? "" : unit, others: { "kg/m2": (typed: number) => typed } };
  return quantity(LABELS[name], of, {
    hint: usually(name, String),
    usual: value,
    least: allowed[0],
    most: allowed[1],
  });
}

/** A length of the lips; its value is in m. */
function lipLength(name: LipName): Field<number> {
  const { value, allowed } = LIP_PARAMETERS[name];
  const shown = (metres: number, unit: LengthUnit, digits?: number) =>
    formatLength(1000 * metres, unit, digits);
  return {
    ...keptLength,
    kind: "length",
    label: LABELS[name],
    hint: (unit) =>
      usually(
        name,
        (x) => shown(x, unit),
        (x) => shown(x, unit).replace(` ${unit}`, ""),
      ),
    unit: (unit) => unit,
    usual: value,
    read: (typed, unit) => {
      const metres = parseLengthMm(typed, unit) / 1000;
      if (metres >= allowed[0] && metres <= allowed[1]) return metres;
      throw new InputError(
        `out of range; give ${shown(allowed[0], unit, 3)} to ${shown(allowed[1], unit, 3)}`,
      );
    },
  };
}

export const LIP_FIELDS: Readonly<Record<LipName, Field<number>>> = {
  massPerArea: lipNumber("massPerArea"),
  massExponent: lipNumber("massExponent"),
  quality: lipNumber("quality"),
  restOpening: lipLength("restOpening"),
  width: lipLength("width"),
};

/** How hard each note is blown, times its own threshold. */
export const PRESSURE = {
  ...plainNumber("Blown at", { hint: "usually 1.3", usual: 1.3, least: 1.05, most: 20 }),
  unit: () => "× each note's starting pressure",
};

const litresPerMinute = { ...number, unit: "L/min" };
/** Common practice, no source. */
export const FLOW_LIMITS = { least: 5, most: 60, usual: 20 };
export const FLOW = quantity("Flow", litresPerMinute, { ...FLOW_LIMITS, isWhole: true });

/** Notes by number, the aim's error in cents, how many runs. */
export const LEAP_FIELDS = {
  from: plainNumber("From note", { usual: 4, least: 2, most: 10, isWhole: true }),
  to: plainNumber("To note", { usual: 6, least: 2, most: 10, isWhole: true }),
  aim: {
    ...plainNumber("Error of aim, standard deviation", {
      hint: "usually 100",
      usual: 100,
      least: 0,
      most: 1200,
    }),
    unit: () => "cents",
  },
  runs: plainNumber("Slurs at each gap", {
    hint: "usually 100",
    usual: 100,
    least: 1,
    most: 10_000,
    isWhole: true,
  }),
};

/** Which lips are blown; either model's are tried for a verdict. */
const LIP_MODELS = ["one-mass", "two-way"] as const;

export const playForm = keptForm({
  lipModel: oneOf(LIP_MODELS, "one-mass"),
  lips: record(LIP_FIELDS),
  pressure: PRESSURE,
  flow: FLOW,
  leap: record(LEAP_FIELDS),
});
export type PlayNotes = KeptBy<typeof playForm>;
