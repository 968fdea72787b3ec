/** Columns of text for a terminal: numbers to the right, a rule under the head. */
export function textTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const width = head.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i].length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, i) => cell.padStart(width[i]))
      .join("  ")
      .trimEnd();
  return [line(head), width.map((w) => "─".repeat(w)).join("  "), ...rows.map(line)]
    .map((l) => `${l}\n`)
    .join("");
}

/** With its sign, the keyboard's own so that other programs read it; what rounds to nothing has none. */
export function signed(value: number | null, digits: number): string {
  if (value === null) return "–";
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace("-", "") : value > 0 ? `+${text}` : text;
}
