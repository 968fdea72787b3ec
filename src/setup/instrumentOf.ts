/**
 * Which instrument a setup is of: as its file says; otherwise by the setup's name and, where that tells nothing, by how long the
 * tube is.
 */
import type { InstrumentKind } from "./instrumentKind.ts";
import type { ProfileMm, Setup } from "./setup.ts";

/** The first that fits a name; words that stand for several instruments come later. */
const NAMED: readonly (readonly [InstrumentKind, RegExp])[] = [
  ["flugelhorn", /fl(u|ü)e?gel/i],
  ["cornet", /cornet/i],
  ["e-flat-trumpet", /\b(e[- ]?flat|e♭|eb)[ -]trumpet/i],
  ["c-trumpet", /\bC[ -]trumpet/],
  ["bass-trombone", /bass[ -]trombone/i],
  ["tenor-trombone-large", /large.*trombone/i],
  ["tenor-trombone-small", /trombone/i],
  ["euphonium", /euphonium|baritone/i],
  ["tuba", /tuba|sousaphone/i],
  ["horn-b-flat", /horn.*(b[- ]?flat|b♭|bb)/i],
  ["horn-f", /(french|double|f)[ -]horn|\bhorn in f\b/i],
  ["b-flat-trumpet", /trumpet/i],
];

/**
 * From the receiver's face to the bell, mm: lengths of the stand-ins, for one instrument of each length. Nine feet may be a
 * trombone, a euphonium or a B-flat horn; a trombone is taken, whose notes are written as they sound.
 */
const USUAL_LENGTH_MM: Readonly<Partial<Record<InstrumentKind, number>>> = {
  "e-flat-trumpet": 940,
  "c-trumpet": 1140,
  "b-flat-trumpet": 1310,
  "tenor-trombone-small": 2750,
  "horn-f": 3770,
  tuba: 5530,
};

/** The instrument a setup is of: as it says, by its name, or by its length. */
export function instrumentOf({
  instrument,
  name,
  receiver,
  leadpipe,
  body,
}: Pick<Setup, "instrument" | "name" | "receiver" | "leadpipe" | "body">): InstrumentKind {
  if (instrument) return instrument;
  const named = NAMED.find(([, pattern]) => pattern.test(name));
  if (named) return named[0];
  const lengthMm = receiver.depthMm + lengthOf(leadpipe.profileMm) + lengthOf(body.profileMm);
  const [nearest] = (Object.entries(USUAL_LENGTH_MM) as [InstrumentKind, number][])
    .map(([kind, usualMm]) => [kind, Math.abs(Math.log(lengthMm / usualMm))] as const)
    .sort(([, a], [, b]) => a - b);
  return nearest[0];
}

const lengthOf = (profileMm: ProfileMm): number => profileMm[profileMm.length - 1][0] - profileMm[0][0];
