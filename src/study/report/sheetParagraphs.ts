/** Of what a printed sheet is made: a report in paragraphs on a front and a back, a class's in three sentences under one chart. */

/** What a player reads in a minute, in reading order. */
export const FRONT_PARAGRAPHS = ["measured", "trial", "answer", "recommendation", "reverse"] as const;
/** For the technician, and for whoever checks. */
export const BACK_PARAGRAPHS = [
  "found",
  "slots",
  "resistance",
  "noGap",
  "origins",
  "cautions",
  "method",
] as const;
export const WORKSHOP_PARAGRAPHS = [...FRONT_PARAGRAPHS, ...BACK_PARAGRAPHS] as const;
export const CLASSROOM_SENTENCES = ["first", "second", "third"] as const;
export const PARAGRAPHS = [...WORKSHOP_PARAGRAPHS, ...CLASSROOM_SENTENCES] as const;
export type Paragraph = (typeof PARAGRAPHS)[number];

/** What the classroom's sheet draws. */
export const CLASSROOM_CHARTS = ["height", "spacing", "curves"] as const;
export type ClassroomChart = (typeof CLASSROOM_CHARTS)[number];
