/** What is wrong with a take, or keeps something from being told, as codes with their numbers; `words/listen` says them. */
import type { Levels } from "./levels.ts";
import { partialOf } from "./partials.ts";
import { OTHER_NOTE_CENTS, type Side, type Slot } from "./slot.ts";
import type { TakeFinding, TakeQuestion } from "./takeQuestion.ts";
import { cents, durationS, type Heard, joined, median } from "./track.ts";

export type ListenWarning =
  | { readonly kind: "clipped"; readonly samples: number }
  | { readonly kind: "too-quiet"; readonly levelDbfs: number | null }
  | { readonly kind: "noisy"; readonly signalToNoiseDb: number }
  | { readonly kind: "telephone" }
  | { readonly kind: "hum"; readonly hz: number }
  | { readonly kind: "nothing-heard" }
  | { readonly kind: "other-sounds"; readonly seconds: number }
  | { readonly kind: "unclear"; readonly share: number }
  | { readonly kind: "mixed"; readonly share: number }
  | { readonly kind: "beating"; readonly count: number }
  | { readonly kind: "unsteady"; readonly scatterCents: number }
  | { readonly kind: "wrong-note"; readonly hz: number; readonly nearHz: number }
  | { readonly kind: "unlisted-note"; readonly hz: number }
  | { readonly kind: "no-bend"; readonly side: Side }
  | { readonly kind: "one-bend"; readonly side: Side }
  | { readonly kind: "mixed-ends"; readonly side: Side }
  | { readonly kind: "turned-back"; readonly count: number }
  | { readonly kind: "cut-off" }
  | { readonly kind: "interrupted"; readonly count: number }
  | { readonly kind: "stayed"; readonly count: number }
  | { readonly kind: "pair-unsure"; readonly hz: readonly [one: number, other: number] }
  | { readonly kind: "few"; readonly count: number; readonly of: "slurs" | "attacks" };

/** A few samples at the end of the scale are heard by nobody. */
const CLIPPED_SAMPLES = 5;
const TOO_QUIET_DBFS = -50;
const NOISY_DB = 15;
/** What a telephone passes is sampled like this. */
const TELEPHONE_RATE_HZ = 8000;
/** No room is as dull: noise that falls by 12 dB an octave stands at −14. */
const TELEPHONE_TREBLE_DB = -18;
/** A held note loses its pitch for no longer than this share of the sound. */
const UNCLEAR_SHARE = 0.25;
/** One player's sound stands in its harmonics by this share, but for a few frames where notes change; noise 15 dB down included. */
const PURE = 0.9;
const MIXED_SHARE = 0.06;
const OTHER_SOUNDS_S = 0.3;
/** Talk this much above the quietest moments is heard. */
const OTHER_SOUNDS_DB = 12;
/** A room rings on after a note, and a breath comes before it. */
const AFTER_NOTE_S = 0.6;
const BEFORE_NOTE_S = 0.15;
/** Two players a little out of tune swell and fade by more. */
const BEAT_DB = 6;
const BEATS = 4;
const WRONG_NOTE_CENTS = 80;
const UNSTEADY_CENTS = 8;
/** Fewer say nothing about a share. */
const FEW = 5;

export function warningsOf(
  finding: TakeFinding,
  { nearHz, notesHz }: TakeQuestion,
  heard: Heard,
  levels: Levels,
  sampleRateHz: number,
): ListenWarning[] {
  const warnings: ListenWarning[] = [];
  const { clippedSamples, levelDbfs, noiseDbfs, trebleDb } = levels;
  if (clippedSamples > CLIPPED_SAMPLES) warnings.push({ kind: "clipped", samples: clippedSamples });
  if (levelDbfs === null || levelDbfs < TOO_QUIET_DBFS) warnings.push({ kind: "too-quiet", levelDbfs });
  const isCut = trebleDb !== null && trebleDb < TELEPHONE_TREBLE_DB;
  if (sampleRateHz <= TELEPHONE_RATE_HZ || isCut) warnings.push({ kind: "telephone" });
  if (heard.humHz !== null) warnings.push({ kind: "hum", hz: heard.humHz });

  const isFound = hasFound(finding);
  if (!isFound) warnings.push({ kind: "nothing-heard" });
  else if (levelDbfs !== null && noiseDbfs !== null && levelDbfs - noiseDbfs < NOISY_DB)
    warnings.push({ kind: "noisy", signalToNoiseDb: levelDbfs - noiseDbfs });
  const unclear = unclearShare(heard);
  if (heard.humHz === null && unclear > UNCLEAR_SHARE) warnings.push({ kind: "unclear", share: unclear });
  const otherS = otherSoundsS(heard);
  if (isFound && otherS >= OTHER_SOUNDS_S) warnings.push({ kind: "other-sounds", seconds: otherS });
  const mixed = mixedShare(heard);
  if (isFound && mixed > MIXED_SHARE) warnings.push({ kind: "mixed", share: mixed });
  const beats = beatsOf(heard);
  if (beats >= BEATS) warnings.push({ kind: "beating", count: beats });

  const held = joined(heard.stretches, 0.1).filter((stretch) => durationS(stretch) >= 0.2);
  if (finding.test === "steady") {
    const scatterCents = Math.max(0, ...finding.notes.map((note) => note.scatterCents));
    if (scatterCents > UNSTEADY_CENTS) warnings.push({ kind: "unsteady", scatterCents });
  }
  if (finding.test === "steady" && nearHz !== null) {
    const wrong = finding.notes.find(({ hz }) => Math.abs(cents(hz, nearHz)) > WRONG_NOTE_CENTS);
    if (wrong) warnings.push({ kind: "wrong-note", hz: wrong.hz, nearHz });
  }
  if ((finding.test === "slot" || finding.test === "attack") && !isFound && nearHz !== null) {
    const other = held.find(({ hz }) => Math.abs(cents(hz, nearHz)) > OTHER_NOTE_CENTS);
    if (other) warnings.push({ kind: "wrong-note", hz: other.hz, nearHz });
  }
  if ((finding.test === "slur" || finding.test === "attack") && notesHz.length > 0) {
    const other = held.find(({ hz }) => partialOf(hz, notesHz) === null);
    if (other) warnings.push({ kind: "unlisted-note", hz: other.hz });
  }
  if (finding.test === "slot" && finding.slot) warnings.push(...slotWarnings(finding.slot));
  if (finding.test === "slur" && finding.slurs) {
    const { slurs, interrupted, stayed, isPairUnsure } = finding.slurs;
    if (isPairUnsure && slurs.length > 0)
      warnings.push({ kind: "pair-unsure", hz: [slurs[0].fromHz, slurs[0].toHz] });
    if (stayed > 0) warnings.push({ kind: "stayed", count: stayed });
    if (interrupted > 0) warnings.push({ kind: "interrupted", count: interrupted });
    if (slurs.length < FEW) warnings.push({ kind: "few", count: slurs.length, of: "slurs" });
  }
  if (finding.test === "attack" && finding.attacks && finding.attacks.attacks.length < FEW)
    warnings.push({ kind: "few", count: finding.attacks.attacks.length, of: "attacks" });
  return warnings;
}

function hasFound(finding: TakeFinding): boolean {
  switch (finding.test) {
    case "steady":
      return finding.notes.length > 0;
    case "slot":
      return finding.slot !== null;
    case "slur":
      return finding.slurs !== null;
    case "attack":
      return finding.attacks !== null;
  }
}

function* slotWarnings({ low, high, bends, turnedBack, isCutOff }: Slot): Generator<ListenWarning> {
  for (const [side, edge] of [
    ["low", low],
    ["high", high],
  ] as const) {
    if (edge === null) yield { kind: "no-bend", side };
    else if (edge.count === 1) yield { kind: "one-bend", side };
    else if (new Set(bends.filter((bend) => bend.side === side).map(({ end }) => end)).size > 1)
      yield { kind: "mixed-ends", side };
  }
  if (turnedBack > 0) yield { kind: "turned-back", count: turnedBack };
  if (isCutOff) yield { kind: "cut-off" };
}

/** Share of what sounds that has no pitch. */
function unclearShare({ track, sounding, stretches }: Heard): number {
  const all = sounding.filter(Boolean).length;
  const pitched = stretches.reduce((sum, { frames }) => sum + frames.length, 0);
  return all * track.hopS < OTHER_SOUNDS_S ? 0 : 1 - pitched / all;
}

/** Share of the pitched frames in which a good part of the power is none of the pitch's. */
function mixedShare({ stretches }: Heard): number {
  const frames = stretches.flatMap((stretch) => stretch.frames);
  return frames.filter(({ harmonicShare }) => harmonicShare < PURE).length / Math.max(1, frames.length);
}

/** How long something else was to be heard, away from the notes. */
function otherSoundsS({ track, sounding, floorDb }: Heard): number {
  const { frames, hopS } = track;
  let lastS = -Infinity;
  const next: number[] = new Array(frames.length).fill(Infinity);
  for (let i = frames.length - 1, nextS = Infinity; i >= 0; i--) {
    if (sounding[i]) nextS = frames[i].atS;
    next[i] = nextS;
  }
  let count = 0;
  frames.forEach(({ atS, levelDb }, i) => {
    if (sounding[i]) lastS = atS;
    else if (
      levelDb > floorDb + OTHER_SOUNDS_DB &&
      atS - lastS > AFTER_NOTE_S &&
      next[i] - atS > BEFORE_NOTE_S
    )
      count++;
  });
  return count * hopS;
}

/** How often one pitch swells and fades while it is held. */
function beatsOf({ track, stretches }: Heard): number {
  const smooth = Math.max(1, Math.round(0.03 / track.hopS));
  let most = 0;
  for (const { frames } of joined(stretches, 0.15)) {
    let count = 0;
    let isRising = true;
    let turn = -Infinity;
    for (let i = smooth; i < frames.length - smooth; i++) {
      const level = median(
        frames.slice(i - smooth, i + smooth + 1).map(({ fundamentalDb }) => fundamentalDb),
      );
      if (isRising ? level > turn : level < turn) turn = level;
      else if (Math.abs(level - turn) > BEAT_DB) {
        if (isRising) count++;
        isRising = !isRising;
        turn = level;
      }
    }
    most = Math.max(most, count);
  }
  return most;
}
