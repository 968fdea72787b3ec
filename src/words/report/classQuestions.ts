/** Three questions for a class that has its sheet before it, and their answers, with the record's figures in braces. */
import type { ClassroomChart } from "../../study/report/sheetParagraphs.ts";

export interface ClassQuestion {
  readonly question: string;
  /** A template (`sheetWords.ts`). */
  readonly answer: string;
}

const OF_CHART: Readonly<Record<ClassroomChart, ClassQuestion>> = {
  height: {
    question: "Which note's peak changes most? Would a player notice it?",
    answer:
      "The heights change by {heightRange}. A player is assumed to notice {feltDecibels}: whatever stays inside the hatched band is too small to notice.",
  },
  spacing: {
    question: "Which note moves most against its neighbour? Would a player notice it?",
    answer:
      "Neighbours move by {spacingRange} against each other. A player is assumed to notice {feltCents}: whatever stays inside the hatched band is too small to notice.",
  },
  curves: {
    question: "Compare the solid curve with the dashed one. Which peak moves most? Would a player notice it?",
    answer:
      "The peaks shift by {shiftRange} and change in height by {heightRange}. A player is assumed to notice {feltCents} or {feltDecibels}.",
  },
};

export const classQuestions = (chart: ClassroomChart): readonly ClassQuestion[] => [
  {
    question: "Where is the gap? Can you see it from outside?",
    answer:
      "It is inside the receiver, between the end of the mouthpiece's shank and the start of the leadpipe. It cannot be seen from outside: the space at the shoulder is another length.",
  },
  OF_CHART[chart],
  {
    question:
      "Players say a wider gap slots harder. If that were so, what would every note have to do? What do you see?",
    answer:
      "Every note would have to go the same way, and by enough to notice. The model's answer for this instrument: {slotsFinding}. No calculation can choose a gap for a player: try several, blind.",
  },
];
