/** What was found in one take, in a sentence or two. */

import type { Slot, SlotEdge } from "../../listen/slot.ts";
import type { Missed } from "../../listen/slur.ts";
import type { Take } from "../../listen/take.ts";
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import { noteText } from "../instruments.ts";
import { percent, signed } from "../numbers.ts";

/** @param asked the note meant, by its partial and frequency, and of slurs the other one */
export function takeWords(
  take: Take,
  asked: { readonly partial: number; readonly toPartial: number | null; readonly hz: number },
  instrument?: InstrumentKind,
): string {
  const note = noteText(asked.partial, instrument);
  switch (take.test) {
    case "steady": {
      if (take.notes.length === 0) return NOTHING;
      const each = take.notes.map(({ hz, uCents }) => {
        const cents = 1200 * Math.log2(hz / asked.hz);
        return `${hz.toFixed(1)} Hz, ${signed(cents, 1)} ± ${Math.max(0.1, 2 * uCents).toFixed(1)} cents`;
      });
      return `${note}: ${each.join("; ")}.`;
    }
    case "slot":
      return take.slot ? slotWords(take.slot, note) : NOTHING;
    case "slur":
      return take.slurs ? missedWords(take.slurs.missed, "slurs", settledS(take.slurs.slurs)) : NOTHING;
    case "attack":
      return take.attacks
        ? missedWords(take.attacks.missed, "attacks", settledS(take.attacks.attacks))
        : NOTHING;
  }
}

const NOTHING = "Nothing was found that this test could use.";

function slotWords({ low, high, widthCents, restHz }: Slot, note: string): string {
  const ends = `It ${endWords(low, "down")}, and ${endWords(high, "up")}, about a resting pitch of ${restHz.toFixed(1)} Hz.`;
  return widthCents === null
    ? `Slot of ${note}: its width is not known yet. ${ends}`
    : `Slot of ${note}: ${widthCents.toFixed(0)} cents wide. ${ends}`;
}

function endWords(edge: SlotEdge | null, way: "down" | "up"): string {
  if (!edge) return `was not bent ${way} to its end`;
  const how = edge.breaks ? "broke" : "ended";
  const scatter =
    edge.scatterCents === null
      ? "once"
      : `${edge.count} times, scattering by ${edge.scatterCents.toFixed(0)}`;
  return `${how} at ${signed(edge.cents, 0)} cents (${scatter})`;
}

function missedWords({ count, of, interval }: Missed, what: string, settled: string): string {
  if (of === 0) return NOTHING;
  return `${count} of ${of} ${what} missed: ${percent(count / of)}, between ${Math.round(100 * interval[0])} and ${Math.round(100 * interval[1])} % at 95 %.${settled}`;
}

/** The middle of the times to settle. */
function settledS(all: readonly { readonly settleS: number | null }[]): string {
  const times = all.flatMap(({ settleS }) => settleS ?? []).sort((a, b) => a - b);
  return times.length === 0
    ? ""
    : ` Settled in ${times[Math.floor(times.length / 2)].toFixed(2)} s as a rule.`;
}
