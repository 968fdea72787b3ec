/** What the strip shows of a sound: the last seconds while it is played, the whole once it is over. */
import type { PitchStrip, StripMark } from "../../../charts/plots/listen/pitchStrip.ts";
import type { Take } from "../../../listen/take.ts";
import type { InstrumentKind } from "../../../setup/instrumentKind.ts";
import { writtenHz } from "../../state/bench/listened.ts";
import type { Asked } from "./question.ts";
import type { ListenState } from "./session.ts";

/** While it is played, s. */
const WINDOW_S = 12;
/** How far from the note the strip reaches: as far as a slot may, or as slurs and slips do. */
const NEAR_CENTS = 250;
const FAR_CENTS = 900;

const isOfNotes = ({ question: { test } }: Asked): boolean => test === "slur" || test === "attack";

export function stripOf(
  {
    phase,
    points,
    seconds,
    edges,
    found,
  }: Pick<ListenState, "phase" | "points" | "seconds" | "edges" | "found">,
  now: Asked,
  instrument: InstrumentKind,
): PitchStrip {
  const { hz, partial, partials } = found?.asked ?? now;
  const fromS = phase === "heard" ? 0 : Math.max(0, seconds - WINDOW_S);
  const take = found?.take;
  const slot = take?.test === "slot" ? take.slot : null;
  // a slot is told about the resting pitch, as soon as that is known
  const restHz = slot?.restHz ?? edges?.restHz ?? null;
  const cents = (one: number) => 1200 * Math.log2(one / (restHz ?? hz));
  const centsOrNull = (one: number | null | undefined) => (one == null ? null : cents(one));
  return {
    partial,
    isAboutRest: restHz !== null,
    reachCents: isOfNotes(found?.asked ?? now) ? FAR_CENTS : NEAR_CENTS,
    points: points
      .filter(({ atS }) => atS >= fromS)
      .map((point) => ({ atS: point.atS, cents: centsOrNull(point.hz) })),
    fromS,
    toS: phase === "heard" ? seconds : fromS + WINDOW_S,
    lowCents: centsOrNull(take ? slot?.low?.hz : edges?.lowHz),
    highCents: centsOrNull(take ? slot?.high?.hz : edges?.highHz),
    marks: take ? marksOf(take, cents) : [],
    others: partials
      .filter((n) => n !== partial)
      .map((n) => ({ partial: n, cents: cents(writtenHz(instrument, n)) })),
  };
}

function marksOf(take: Take, cents: (hz: number) => number): StripMark[] {
  const mark = (one: { readonly atS: number; readonly landedHz: number; readonly result: string }) => ({
    atS: one.atS,
    cents: cents(one.landedHz),
    isMissed: one.result !== "hit",
  });
  switch (take.test) {
    case "slur":
      return (take.slurs?.slurs ?? []).map(mark);
    case "attack":
      return (take.attacks?.attacks ?? []).map(mark);
    case "slot":
      return (take.slot?.bends ?? []).map(({ atS, hz }) => ({ atS, cents: cents(hz), isMissed: false }));
    case "steady":
      return [];
  }
}
