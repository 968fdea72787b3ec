import { describe, expect, it } from "vitest";
import { measuredOutcome } from "../../../src/study/listened/measuredTrial.ts";
import { trialFinding } from "../../../src/trial/finding.ts";
import { sealTrial } from "../../../src/trial/seal.ts";
import { trialBeforeCut } from "../../../src/words/trial/beforeCut.ts";
import { gapItems } from "../../trial/players.ts";

const plan = { id: "t", player: "", items: gapItems(1, 2, 3), passages: "", difference: 20 };
const sealed = sealTrial({ ...plan, repeats: 2 }, 1);
const played = sealTrial({ ...plan, repeats: 5 }, 1);

describe("before a cut", () => {
  it("says that no trial was played, and to play one first", () => {
    expect(trialBeforeCut(null, null, [], "mm")).toMatch(/^No blind trial was played.*first/);
  });

  it("says that one is under way", () => {
    expect(trialBeforeCut(null, sealed, [], "mm")).toMatch(/under way.*0 of 6 turns rated/);
  });

  it("says what was measured, where that decided and nothing was rated", () => {
    const trial = { ...played, decidedBy: "slot" as const, opened: "complete" as const };
    const measured = measuredOutcome(trial, [], () => 466);
    const said = trialBeforeCut({ trial, finding: null, measured }, null, [], "mm");
    expect(said).toMatch(/Planned beforehand: 3 gaps, 5 times each, blind, decided by slot width, measured/);
    expect(said).toContain("decides nothing");
    const waiting = { ...sealed, decidedBy: "slot" as const };
    expect(trialBeforeCut(null, waiting, [], "mm")).toContain("0 of 6 turns measured");
  });

  it("says what the one that was played found", () => {
    const liked = [40, 80, 45];
    const trial = {
      ...played,
      opened: "complete" as const,
      openedAt: "2026-11-25T10:00:00Z",
      turns: played.turns.map((turn, i) => ({
        ...turn,
        ratings: { hold: 50, ease: 50, evenness: 50, preference: liked[turn.item] + (i % 3) },
      })),
    };
    const said = trialBeforeCut({ trial, finding: trialFinding(trial), measured: null }, null, [], "mm");
    expect(said).toMatch(/^A blind trial was played, finished 25 Nov 2026\. Prefers/);
  });
});
