/** What a repairer says across the bench before a gap is changed. All of it common practice, no source. */

import type { WrapPlan } from "../../bench/cut/wrap.ts";
import { type NamedTaper, nearestNamed } from "../../bench/fit/namedTapers.ts";
import type { LengthUnit } from "../../units/length.ts";
import { lengthInWords } from "./inWords.ts";

export interface Advice {
  readonly title: string;
  readonly lines: readonly string[];
}

export const MEASURE_FIRST: Advice = {
  title: "Measure, and look first",
  lines: [
    "Look at the shank's end (round? dented?), the receiver's mouth (worn, belled?), leaks and solder cracks. A leaky or worn seat feels like a wrong gap: rule it out first.",
    "A stuck mouthpiece comes out with a puller, never with pliers.",
    "Depth: a flat-ended plug, wider than the leadpipe's bore and narrower than the receiver's, on a depth gauge. A thin rod slides past a lip of 0.4 mm.",
    "No lip, no depth: a chamfered, flush, reversed or one-piece leadpipe has no start to measure to. Take the depth from a drawing, or leave the gap unnamed.",
    "Insertion without marking the shank: overall length of the mouthpiece, less the distance from rim to the receiver's face when it is seated.",
    "Fit: ring and plug gauges; blueing shows where a seat touches.",
  ],
};

export const TRY_FIRST: Advice = {
  title: "Try before cutting",
  lines: [
    "A taper seats at one depth. A mouthpiece pulled out a little is off its seat: it wobbles and leaks, and tells nothing about the gap.",
    "An adjustable receiver: the stop is moved and locked.",
    "Matched shanks: alike but for the diameter at the seat, each measured.",
    "A wrap of foil or paper, thin and even over the whole seat. It only ever widens the gap.",
    "Measure each one after it is made, and try them blind in Trial.",
  ],
};

/** Ways in order of regret: the first costs nothing, the last cannot be undone. */
export const ORDER_OF_REGRET: Advice = {
  title: "In order of regret",
  lines: [
    "Do nothing: a change too small to notice is not worth metal.",
    "Clean shank and receiver, seat with a light twist, and measure again.",
    "Move the stop of an adjustable receiver.",
    "Another shank, or a sleeve; a wrap for trying.",
    "Only then metal off this shank: turn the taper down, or shorten the end.",
  ],
};

export const OTHER_WAYS: Advice = {
  title: "Ways that change every mouthpiece in this instrument",
  lines: [
    "Ream the receiver: every shank goes in further, and no metal comes back.",
    "Move or replace the receiver: heat near a soldered joint, and a new depth for every mouthpiece.",
    "Move or replace the leadpipe: the bore that the instrument plays through changes with it.",
    "A separate job for a qualified repairer, with the player's and the owner's word. Not planned here.",
  ],
};

const TAPER_NAME: Readonly<Record<NamedTaper["name"], string>> = {
  "usual-trumpet": "about usual for trumpet shanks",
  "morse-1": "near Morse No. 1",
  "morse-0": "near Morse No. 0",
};

export const TAPERS: Advice = {
  title: "Tapers by name",
  lines: [
    "Trumpet shanks are usually near 1:20; some are Morse No. 1, 0.5986 in/ft or 1:20.047 (ISO 296). Morse No. 0 is 0.6246 in/ft or 1:19.212.",
    "Cornet, flugelhorn (several, not all tapered alike), horn, small and large trombone, euphonium and tuba shanks differ among each other and among makers.",
    "Usual is not certain: check with a gauge. 0.001 in on the diameter is 0.020 in of insertion at 1:20, so a taper is checked by insertion.",
  ],
};

export const BENCH_ADVICE: readonly Advice[] = [
  MEASURE_FIRST,
  ORDER_OF_REGRET,
  TRY_FIRST,
  OTHER_WAYS,
  TAPERS,
];

/** `1:20.00, 0.6000 in/ft: usual for trumpet shanks, check with a gauge`. */
export function taperWords(taper: number): string {
  if (taper <= 0) return "no taper";
  const figures = `1:${(1 / taper).toFixed(2)}, ${(12 * taper).toFixed(4)} in/ft`;
  const named = nearestNamed(taper);
  return named ? `${figures}: ${TAPER_NAME[named.name]}, check with a gauge` : figures;
}

export const WRAP_ONLY_WIDENS = "A wrap only ever widens.";

export const MEASURE_A_WRAP =
  "Measure several layers together and divide: paper gives under pressure, and foil folds. Measure the gap again once it is wrapped, and take the wrap off before anything is cut.";

/** What one measured foil or paper does. */
export function wrapWords({ perLayerMm, layers, gapMm }: WrapPlan, unit: LengthUnit): string {
  const mm = lengthInWords(unit);
  const each = `One layer opens the gap by ${mm(perLayerMm)}`;
  if (layers === undefined || gapMm === undefined) return `${each}.`;
  return layers === 1 ? `${each}, to ${mm(gapMm)}.` : `${each}; ${layers} layers, to ${mm(gapMm)}.`;
}
