/**
 * Words with named figures in them: `The gap is {gap}.` The words are a person's, the figures the record's. What cannot be
 * filled stays as it was written, with what is wrong in words.
 */
import type { Figure, Figures } from "./sheetFigure.ts";

/** Text as typed, or a figure in its place. */
export type Piece = string | Figure;

export interface Filled {
  /** A line each, the empty ones left out. */
  readonly lines: readonly (readonly Piece[])[];
  /** What is wrong with the template, a sentence; empty where nothing is. */
  readonly problem: string;
  readonly isWaiting: boolean;
}

/** A name in braces; or a brace without its partner. */
const PLACES = /\{([^{}\n]*)\}|[{}]/g;

/** A template with its figures put in; a name that is none, or a brace alone, is a problem in words. */
export function filled(template: string, figures: Figures): Filled {
  const problems = new Set<string>();
  const pieces = (line: string): Piece[] => {
    const found: Piece[] = [];
    let from = 0;
    const text = (to: number) => {
      if (to > from) found.push(line.slice(from, to));
    };
    for (const match of line.matchAll(PLACES)) {
      const figure = figures.get(match[1]?.trim() ?? "");
      if (figure) {
        text(match.index);
        found.push(figure);
        from = match.index + match[0].length;
      } else problems.add(problemOf(match, figures));
    }
    text(line.length);
    return found;
  };
  const lines = template
    .split("\n")
    .map((line) => line.trim())
    .filter(Boolean)
    .map(pieces);
  return {
    lines,
    problem: [...problems].join(" "),
    isWaiting: lines.flat().some((piece) => typeof piece !== "string" && piece.isWaiting),
  };
}

function problemOf([whole, name]: RegExpMatchArray, figures: Figures): string {
  if (name === undefined) return `There is a ${whole} without its partner: a figure is written {gap}.`;
  if (name.trim() === "") return "There is nothing between { and }: write a figure's name, such as {gap}.";
  const near = nearest(name.trim(), figures);
  return `There is no figure {${name.trim()}}: ${near ? `did you mean {${near}}?` : "take one from the list."}`;
}

/** The name that is meant, as far as one can tell: the same but for its case or its end. */
function nearest(name: string, figures: Figures): string | undefined {
  const meant = name.toLowerCase();
  const names = [...figures.keys()];
  return (
    names.find((one) => one.toLowerCase() === meant) ??
    names.find((one) => one.toLowerCase().startsWith(meant) || meant.startsWith(one.toLowerCase()))
  );
}
