/** What is said to one person who plays a blind trial alone, from envelopes. */
import { wrapForGapMm } from "../../bench/cut/wrap.ts";
import { setupSeatTaper } from "../../bench/fit/setupSeatTaper.ts";
import { gapMm, isSameGap, type Setup } from "../../setup/setup.ts";
import { envelopeLetters } from "../../trial/envelopes.ts";
import type { Trial, TrialItem } from "../../trial/trial.ts";
import { formatLength } from "../../units/formatLength.ts";
import type { LengthUnit } from "../../units/length.ts";
import { WRAP_ONLY_WIDENS } from "../bench/benchAdvice.ts";

/** Step by step, for the paper. */
export const envelopeSteps = ({ items }: Trial): readonly string[] => [
  "Get everything ready first: a wrap, a matched shank or an instrument for each slip. Measure each gap, and write it on its slip.",
  "Cut the slips apart. Fold each with the print inside, and tape it shut.",
  "Put each slip with what belongs to it into an envelope or a bag. All look alike, and nothing shows through.",
  `Shuffle them behind your back. Only then write one letter on each: ${envelopeLetters(items.length).join(", ")}.`,
  "At every turn take what is in the envelope that the page names. Leave the slip folded. Seat the mouthpiece again, also where the letter is the same.",
  "When all turns are rated, open the slips and tell the page what each envelope held.",
];

/** How far it is blind. */
export const ENVELOPE_LIMITS =
  "You notice when an envelope comes back, and you may feel a thick wrap. With an assistant a trial is blinder. Common practice, no source.";

/**
 * How one of the gaps is made, or what else goes in.
 *
 * @param ownMm the gap as it is at the bench
 */
export function slipWords(
  { name, gapMm: wanted }: TrialItem,
  setup: Setup,
  unit: LengthUnit,
  ownMm = gapMm(setup),
): string {
  if (wanted === null) return `Put in: ${name}.`;
  if (isSameGap(wanted, ownMm)) return "The gap as it is now: no wrap.";
  if (wanted < ownMm)
    return `Narrower than your gap: a matched shank or an adjustable receiver. ${WRAP_ONLY_WIDENS}`;
  const thick = formatLength(
    wrapForGapMm(wanted - ownMm, setupSeatTaper(setup)),
    unit,
    unit === "mm" ? 3 : 4,
  );
  return `A wrap ${thick} thick all round, or a matched shank.`;
}

/** What is known of how a trial was played. */
export const PLAYED_ALONE = "Played by one person alone, from shuffled envelopes.";
