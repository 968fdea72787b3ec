/** What sweeps before and after tell, a sentence each: by how much the instrument's resonances moved, and what the model says of it. */
import type { Side } from "../../response/keptSweep.ts";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type {
  BesideModel,
  ComparedResonance,
  OctaveChange,
  SweptFinding,
} from "../../study/swept/besideModel.ts";
import { isFound } from "../../study/swept/besideModel.ts";
import type { SweepPlan } from "../../study/swept/plan.ts";
import { WANTED } from "../../study/swept/plan.ts";
import type { Measured, SweptChange, SweptDoubt } from "../../study/swept/sweptChange.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { noteText } from "../instruments.ts";
import { signed } from "../numbers.ts";

export const SIDE_NAMES: Readonly<Record<Side, string>> = { before: "Before", after: "After" };

/** The finding in a table's cell. */
export const SWEPT_FINDING: Readonly<Record<SweptFinding, string>> = {
  agrees: "agrees",
  disagrees: "disagrees",
  "cannot-tell": "cannot tell",
  "no-model": "–",
};

/** `−2.1 ± 0.6`; decimals as the interval allows. */
export function measuredText({ value, expanded }: Measured): string {
  const digits = expanded >= 10 ? 0 : expanded < 0.1 ? 2 : 1;
  return `${signed(value, digits)} ± ${expanded.toFixed(digits)}`;
}

/** A note by its name where the model knows it, else its frequency. */
export const resonanceName = (
  { n, hz }: Pick<ComparedResonance, "n" | "hz">,
  instrument?: InstrumentKind,
): string => (n === null ? `${hz.toFixed(0)} Hz` : noteText(n, instrument));

/** The finding of all, in a sentence or two. */
export function sweptHeadline(
  swept: SweptChange,
  { resonances, counts }: BesideModel,
  unit: LengthUnit,
): string {
  if (resonances.length === 0)
    return "No resonance was heard both before and after: nothing can be compared. Check the seal and the level, and sweep again.";
  const gaps = `From ${formatLength(swept.beforeMm, unit)} to ${formatLength(swept.afterMm, unit)}`;
  if (swept.basis === "once")
    return `${gaps}: one sweep each tells too little. Mount each again and sweep: what mounting anew does is not known yet.`;
  const moved = resonances.filter(({ shift }) => isFound(shift));
  const found =
    moved.length === 0
      ? `no resonance moved by more than this measurement can tell (±${Math.max(...resonances.map(({ shift }) => shift.expanded)).toFixed(1)} cents)`
      : `${moved.length} of ${resonances.length} resonances moved, ${rangeText(moved.map(({ shift }) => shift.value))}`;
  return `${gaps}: ${found}. ${modelWords(counts)}`;
}

const rangeText = (values: readonly number[]): string => {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return signed(low, 1) === signed(high, 1)
    ? `by ${signed(low, 1)} cents`
    : `by ${signed(low, 1)} to ${signed(high, 1)} cents`;
};

function modelWords({ agrees, disagrees, "cannot-tell": cannot }: BesideModel["counts"]): string {
  const all = agrees + disagrees + cannot;
  if (all === 0) return "The model says nothing of this change.";
  const verbs = [
    [agrees, "agrees on"],
    [disagrees, "disagrees on"],
    [cannot, "cannot be judged on"],
  ] as const;
  const parts = verbs
    .filter(([count]) => count > 0)
    .map(([count, verb]) => `${verb} ${count === all && all > 1 ? `all ${all}` : count}`);
  const said =
    parts.length > 1 ? `${parts.slice(0, -1).join(", ")} and ${parts[parts.length - 1]}` : parts[0];
  const chance = disagrees === 1 && all >= 8 ? " (one in twenty falls outside by chance)" : "";
  return `Of the ${all} that the model knows as well, it ${said}${chance}.`;
}

/** Every shift in a row, for paper: `low C (2) −1.2 ± 0.3 (model −1.1); …`. */
export const shiftsInARow = ({ resonances }: BesideModel, instrument?: InstrumentKind): string =>
  resonances
    .map((one) => {
      const model = one.model ? ` (model ${signed(one.model.value, 1)})` : "";
      return `${resonanceName(one, instrument)} ${measuredText(one.shift)}${model}`;
    })
    .join("; ");

/** What the intervals rest on, in figures. */
export function scatterWords({ scatter, temperatureC, basis }: SweptChange): string {
  const air = `All at ${temperatureC.toFixed(1)} °C; reading the thermometer leaves ${scatter.temperature.toFixed(2)} cents a take.`;
  if (basis === "once") return `${air} Nothing was repeated.`;
  return `± is 95 % (JCGM 100:2008). From take to take all resonances move together by ${scatter.common!.toFixed(2)} cents and each by itself by ${scatter.own!.toFixed(2)} (standard deviations). ${air}`;
}

/** What is wrong with the takes and what to do. */
export function doubtWords(doubt: SweptDoubt): string {
  switch (doubt.kind) {
    case "once":
      return "Nothing was repeated. Mount each again and sweep it again, in turn: until then the tool cannot tell whether the model agrees.";
    case "one after the other":
      return "All takes of one were made before all of the other: a drift of the air then looks like a change. Mount them in turn where you can.";
    case "drift":
      return `Takes of the same gap differ by ${doubt.cents.toFixed(1)} cents on all notes, as if the air had changed by ${doubt.kelvin.toFixed(1)} °C more than the thermometer says. Let the instrument lie until it is as warm as the room, do not hold it or blow into it, and read the thermometer at every take.`;
    case "unlike":
      return `Take ${doubt.take + 1} (${doubt.side}) differs from the others of its gap on the low notes, and its Q is lower: that is what a leak at the seal does. Press the putty down, sweep again, then remove this take.`;
    case "leak":
      return `Q of the low notes changed by ${signed(doubt.percent, 0)} %, more than a gap can do: one of the two leaks at the seal, or something else was changed as well. Do not put the shifts down to the gap alone.`;
    case "restless":
      return "Some takes hold more than resonances and noise: echoes of the room, hum, or a draught. Their intervals are wide for it. Put the microphone into the cup, or nearer to the bell, and away from walls.";
    case "unclocked":
      return "In some takes the clocks of player and recorder could not be compared (one sweep only, or a file of your own), so they are taken to agree. 50 parts per million would be 0.09 cent, the same before and after on the same devices.";
    case "few":
      return "Fewer than three resonances were followed: check the level, the seal and the place of the microphone.";
  }
}

/** Octaves, beside the trade's rule. */
export function octaveWords(octave: OctaveChange, noticedCents: number, instrument?: InstrumentKind): string {
  const { low, high, change } = octave;
  const size = Math.abs(change.value);
  const noticed =
    size - change.expanded > noticedCents
      ? "enough to notice"
      : size + change.expanded < noticedCents
        ? "too small to notice"
        : "too uncertain to say whether it would be noticed";
  return `${noteText(low, instrument)} to ${noteText(high, instrument)}: ${measuredText(change)} cents wider, ${noticed}`;
}

/** `Next: mount the 2.5 mm and sweep it (before, take 2 of 3).` */
export function planWords({ next, counts, isDone }: SweepPlan, gapText: string): string {
  const take = `${SIDE_NAMES[next].toLowerCase()}, take ${counts[next] + 1}`;
  if (isDone) return `Enough for an answer. One more pair makes it surer: next is ${gapText} (${take}).`;
  return `Next: mount ${gapText} (${take} of ${WANTED}), take its temperature, and sweep.`;
}

/** A level check: what was heard, and what to do. */
export function checkWords({
  signalToNoiseDb,
  warnings,
}: {
  readonly signalToNoiseDb: number | null;
  readonly warnings: readonly string[];
}): string {
  if (warnings.includes("clipped"))
    return "Too loud: the microphone’s recording stands at the end of the scale. Turn down the sweep or the microphone.";
  if (warnings.includes("not heard") || signalToNoiseDb === null)
    return "Not heard. Check that the earphone plays and the microphone is the right one, then raise the level a little and try again.";
  const heard = `Heard ${signalToNoiseDb.toFixed(0)} dB over the room’s noise`;
  if (signalToNoiseDb < 20)
    return `${heard}: too quiet. Raise it a little and try again, or find a quieter room.`;
  if (signalToNoiseDb < 30) return `${heard}: enough to work with; a little more is better.`;
  return `${heard}: good. Leave it there for all takes.`;
}

/** What the recorder's clock was found to be. */
export function clockWords(clock: { readonly ppm: number; readonly uncertaintyPpm: number } | null): string {
  if (!clock) return "The clocks of player and recorder are taken to agree: one sweep alone cannot tell.";
  return `The recorder’s clock runs ${Math.abs(clock.ppm).toFixed(1)} parts per million ${clock.ppm < 0 ? "slower" : "faster"} than the player’s; corrected.`;
}

/** Before the first sound. */
export const SWEEP_CAUTIONS = [
  "Never hold the earphone to an ear while this page is open: a sweep that is comfortable through the instrument can hurt, and harm hearing, at the ear. Keep your own ears away from the bell.",
  "Begin at the quietest level and raise it only until the check says enough. A small earphone is soon overdriven: rasping or buzzing means too loud.",
] as const;
export const SWEEP_CAUTIONS_SOURCE = "Common practice, no source.";

/** The steps of the set-up. */
export const SET_UP_STEPS = [
  "Let instrument, mouthpiece and earphone lie in the room for half an hour: nobody plays it in between. Half a degree is 1.5 cents.",
  "Seal the earphone to the mouthpiece’s rim with putty or in a turned adapter, airtight, and do not touch it again until all takes are done. Valves and slides stay as they are.",
  "Put the microphone into the cup through the same seal, where the room is not heard; or one bell radius in front of the bell, on its axis, far from walls. Either serves, but the same for all takes.",
  "Turn off the sounds of other programs, and equalisers or “enhancements” of the earphone and the microphone.",
  "Support the instrument so that it lies still, with the mouthpiece in the receiver under the same light twist each time.",
] as const;
