/** Numbers as they stand in sentences: rounded to what can matter, with a true minus sign. */

/** With its sign; what rounds to nothing has none. */
export function signed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? "−" : "+"}${text}`;
}
