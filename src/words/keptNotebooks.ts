/** Whether the notebooks can be read without a network, in the words of the task Learn and of every notebook's foot. */

export type Kept =
  | { readonly state: "looking" }
  | { readonly state: "keeping"; readonly done: number; readonly of: number }
  | { readonly state: "kept" }
  | { readonly state: "missing"; readonly words: string };

export function keptWords(kept: Kept): string {
  switch (kept.state) {
    case "looking":
      return "Looking whether the notebooks are kept for reading without a network.";
    case "keeping":
      return `Keeping all seven notebooks for reading without a network: ${kept.done} of ${kept.of} files.`;
    case "kept":
      return "Kept in this browser: all seven notebooks open without a network.";
    case "missing":
      return kept.words;
  }
}
