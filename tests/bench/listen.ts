/** Speed of listening: seconds of a recording heard in a second, one core, for a high and a low note at a microphone's rate. */
import { listenTo } from "../../src/listen/take.ts";
import { blocksOf, sound } from "../listen/sounds.ts";
import { best, type Row } from "./bench.ts";

const RATE = 48000;
const SECONDS = 12;

export function listenRows(): Row[] {
  return [466.16, 58.27].map((hz) => {
    const tones = [1, 5, 9].map((fromS) => ({ hz, fromS, toS: fromS + 3 }));
    const open = blocksOf(RATE, sound(RATE, SECONDS, tones));
    const work = () => {
      const take = listenTo(open, { test: "steady", nearHz: hz, notesHz: [] });
      if (take.test !== "steady" || take.notes.length !== 3) throw new Error("three notes were expected");
    };
    work();
    return {
      name: `listening to a recording of ${hz.toFixed(0)} Hz, 48 kHz, against real time`,
      value: SECONDS / best(5, work),
      goal: 30,
      unit: "×",
      better: "more",
    };
  });
}
