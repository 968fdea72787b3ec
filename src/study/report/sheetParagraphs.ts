/** Of what a printed sheet is made: the technician's in paragraphs, the classroom's in three sentences under one chart. */

/** The paragraphs of the technician's sheet, in reading order. */
export const WORKSHOP_PARAGRAPHS = [
  "measured",
  "found",
  "slots",
  "resistance",
  "noGap",
  "trial",
  "recommendation",
  "reverse",
  "cautions",
  "method",
] as const;
export const CLASSROOM_SENTENCES = ["first", "second", "third"] as const;
export const PARAGRAPHS = [...WORKSHOP_PARAGRAPHS, ...CLASSROOM_SENTENCES] as const;
export type Paragraph = (typeof PARAGRAPHS)[number];

/** What the classroom's sheet draws. */
export const CLASSROOM_CHARTS = ["height", "spacing", "curves"] as const;
export type ClassroomChart = (typeof CLASSROOM_CHARTS)[number];
