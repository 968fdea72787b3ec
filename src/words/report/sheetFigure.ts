/** A named number of a printed sheet, ready to stand among words. */
export const FIGURE_GROUPS = ["gap", "resonances", "verdicts", "work", "trial", "method"] as const;
export type FigureGroup = (typeof FIGURE_GROUPS)[number];

export interface Figure {
  readonly name: string;
  readonly group: FigureGroup;
  /** What it is, for who looks for it. */
  readonly what: string;
  /** In SI, mm for lengths; null where it is no number, or not known. */
  readonly value: number | null;
  /** As it is printed, with its unit; in words where it is not known. */
  readonly text: string;
  /** The model is still working it out. */
  readonly isWaiting: boolean;
}

export type Figures = ReadonlyMap<string, Figure>;

/** A figure that is known. */
export const figure = (
  group: FigureGroup,
  name: string,
  what: string,
  text: string,
  value: number | null = null,
): Figure => ({ group, name, what, text, value, isWaiting: false });
