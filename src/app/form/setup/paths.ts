/** Places in a setup file, as `SetupError` names them: `leadpipe.profile[3][1]`, `uncertainties["receiver.depth"]`. */
export type Keys = readonly (string | number)[];

export const PARTS = ["mouthpiece", "leadpipe", "body"] as const;
/** A part that has a bore profile. */
export type Part = (typeof PARTS)[number];

/** Column of a profile: 0 the position, 1 the inner diameter. */
export type Column = 0 | 1;

export interface Cell {
  readonly part: Part;
  readonly row: number;
  readonly column: Column;
}

export const keysOf = (path: string): Keys =>
  [...path.matchAll(/\["(.*?)"\]|[^.[\]]+/g)].map(
    ([key, quoted]) => quoted ?? (/^\d+$/.test(key) ? Number(key) : key),
  );

export const cellPath = ({ part, row, column }: Cell): string => `${part}.profile[${row}][${column}]`;

/** The cell of a profile that a path names; null when it names anything else. */
export function cellAt(path: string): Cell | null {
  const match = /^(mouthpiece|leadpipe|body)\.profile\[(\d+)\]\[([01])\]$/.exec(path);
  return match && { part: match[1] as Part, row: Number(match[2]), column: Number(match[3]) as Column };
}

/** Puts a value into plain JSON under these keys, or takes it out: undefined. Objects on the way there are made. */
export function putAt(json: object, keys: Keys, value: unknown): void {
  let inside = json as Record<string | number, unknown>;
  for (const key of keys.slice(0, -1)) {
    if (typeof inside[key] !== "object" || inside[key] === null) inside[key] = {};
    inside = inside[key] as Record<string | number, unknown>;
  }
  const last = keys[keys.length - 1];
  if (value === undefined) delete inside[last];
  else inside[last] = value;
}
