/**
 * Options and keys that have since been given the trade's or the field's names (*compared with* for reference, *slot width*
 * for hold). A program or a script may still use the former ones: such an option is taken without a word, and such a key
 * is written beside today's.
 */
import { Option } from "commander";

/** A former name of an option: left out of the help, it sets what today's option sets. */
class FormerOption extends Option {
  readonly #today: Option;

  constructor(former: string, today: Option) {
    super(today.flags.replace(/--[a-z-]+/, former), today.description);
    this.#today = today;
    this.hideHelp();
    if (today.parseArg) this.argParser(today.parseArg);
  }

  override attributeName(): string {
    return this.#today.attributeName();
  }
}

/** An option under its former name, such as `--reference`. */
export const formerOption = (former: string, today: Option): Option => new FormerOption(former, today);

/** Today's key and the former one. */
export type FormerKeys = Readonly<Record<string, string>>;

/**
 * Any result with its former keys, at every depth, after today's: columns of a table keep their places.
 */
export function withFormerKeys<Value>(value: Value, formerKeys: FormerKeys): Value {
  if (Array.isArray(value)) return value.map((item) => withFormerKeys(item, formerKeys)) as Value;
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).map(
    ([key, item]) => [key, withFormerKeys(item, formerKeys)] as const,
  );
  const former = entries.flatMap(([key, item]) =>
    Object.hasOwn(formerKeys, key) ? [[formerKeys[key], item] as const] : [],
  );
  return Object.fromEntries([...entries, ...former]) as Value;
}
