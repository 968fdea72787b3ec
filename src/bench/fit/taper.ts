/** Tapers as they are written: change of diameter per length, `0.05`, `1:20.047`, `1/20`, `5 %`, `0.6 in/ft`. */
import { InputError, quoteTyped } from "../../units/inputError.ts";

const accepted = "give the change of diameter per length, such as 0.05, 1:20 or 0.6 in/ft";
const number = String.raw`(\d+(?:[.,]\d+)?(?:e[+-]?\d+)?|[.,]\d+)`;
const plain = new RegExp(`^${number}$`, "i");
const percent = new RegExp(`^${number} ?%$`, "i");
const ratio = new RegExp(`^${number} ?[:/] ?${number}$`, "i");
const perFoot = new RegExp(`^${number} ?(?:in|inch|inches|")? ?(?:/|per) ?(?:ft|foot)$`, "i");

/** @throws {InputError} when it is no taper of 0 or more. */
export function parseTaper(text: string): number {
  const typed = text.replace(/\s+/gu, " ").trim();
  const value = (digits: string) => Number(digits.replace(",", "."));
  const match = (form: RegExp) => form.exec(typed)?.slice(1).map(value);
  const [direct] = match(plain) ?? [];
  const [hundredths] = match(percent) ?? [];
  const [change, length] = match(ratio) ?? [];
  const [inchesPerFoot] = match(perFoot) ?? [];
  const taper = direct ?? (hundredths === undefined ? undefined : hundredths / 100);
  const result = taper ?? (inchesPerFoot === undefined ? change / length : inchesPerFoot / 12);
  if (Number.isFinite(result)) return result;
  throw new InputError(`${quoteTyped(text)} is not a taper; ${accepted}`);
}
