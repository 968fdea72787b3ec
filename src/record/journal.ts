/**
 * A copy as two files of lines, each line one key with its volume now and a checksum. The newer file goes on at its end;
 * when it has grown long all that counts is written anew into the other, which takes its place once it is whole: whenever
 * the machine stops, one of the two is whole but for its last line. Files are written over in place and do not shrink,
 * so that they can be written where the disk has no room left. A line's checksum counts in the file's generation, so that
 * what an older generation left behind is not read.
 *
 *     annulus-copy 1 7 5b0c9d1e          format, version, generation, checksum
 *     0f3a77c2 {"key":"…","value":…}     without a value: gone
 *     9be2c015 {"whole":true}
 */

export interface Entry {
  readonly key: string;
  /** Absent: there is no such thing any more. */
  readonly value?: unknown;
}

/** One of the two files. */
export interface Generation {
  /** 0: it is none. */
  readonly generation: number;
  readonly isWhole: boolean;
  readonly entries: readonly Entry[];
  /** Bytes up to here are its own. */
  readonly end: number;
  /** Lines within it that are not as they were written. */
  readonly damaged: number;
}

/** What two files say together. */
export interface Copy {
  readonly held: ReadonlyMap<string, unknown>;
  /** Which of the two goes on; null: neither is there. */
  readonly current: 0 | 1 | null;
  readonly damaged: number;
}

const FORMAT = "annulus-copy 1";
const WHOLE = '{"whole":true}';
const NOTHING: Generation = { generation: 0, isWhole: false, entries: [], end: 0, damaged: 0 };
const NEWLINE = 0x0a;

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** The bytes that go on at the end of a generation. */
export const linesOf = (generation: number, entries: readonly Entry[]): Uint8Array<ArrayBuffer> =>
  encoder.encode(entries.map((entry) => line(generation, JSON.stringify(entry))).join(""));

/** All bytes of a generation that begins with these. */
export const generationOf = (generation: number, entries: readonly Entry[]): Uint8Array<ArrayBuffer> => {
  const head = `${FORMAT} ${generation}`;
  const lines = entries.map((entry) => line(generation, JSON.stringify(entry)));
  return encoder.encode(
    [`${head} ${checksum(encoder.encode(head))}\n`, ...lines, line(generation, WHOLE)].join(""),
  );
};

const line = (generation: number, json: string): string =>
  `${checksum(encoder.encode(`${generation} ${json}`))} ${json}\n`;

/** Reads one of the two files; whatever it holds, nothing is thrown. */
export function readGeneration(bytes: Uint8Array): Generation {
  let at = bytes.indexOf(NEWLINE) + 1;
  const head = /^(annulus-copy 1 (\d{1,15})) ([0-9a-f]{8})$/.exec(
    decoder.decode(bytes.subarray(0, Math.max(0, at - 1))).slice(0, 80),
  );
  if (!head || checksum(encoder.encode(head[1])) !== head[3]) return NOTHING;
  const generation = Number(head[2]);
  const entries: Entry[] = [];
  let isWhole = false;
  let [end, damaged, wrong] = [at, 0, 0];
  for (;;) {
    const next = bytes.indexOf(NEWLINE, at);
    if (next < 0) return { generation, isWhole, entries, end, damaged };
    const json = jsonOf(generation, decoder.decode(bytes.subarray(at, next)));
    at = next + 1;
    if (json === null) {
      wrong++;
      continue;
    }
    if (json === WHOLE) isWhole = true;
    else entries.push(JSON.parse(json));
    // only what stands before something good was damaged; behind it may be anything
    damaged += wrong;
    wrong = 0;
    end = at;
  }
}

function jsonOf(generation: number, text: string): string | null {
  const json = text.slice(9);
  return line(generation, json) === `${text}\n` ? json : null;
}

/** The newer of the two that is whole; where lines of it are damaged, the older stands in for what they said. */
export function readCopy(files: readonly [Uint8Array, Uint8Array]): Copy {
  const read = files.map(readGeneration);
  const order = ([0, 1] as const)
    .filter((i) => read[i].isWhole)
    .sort((a, b) => read[b].generation - read[a].generation);
  if (order.length === 0) return { held: new Map(), current: null, damaged: 0 };
  const [newest] = order;
  const { damaged } = read[newest];
  const held = new Map<string, unknown>();
  for (const i of damaged > 0 ? order.toReversed() : [newest])
    for (const { key, value } of read[i].entries) {
      if (value === undefined) held.delete(key);
      else held.set(key, value);
    }
  return { held, current: newest, damaged };
}

/** CRC-32 (ISO 3309, as in zip files), in hexadecimal. */
export function checksum(bytes: Uint8Array): string {
  let crc = -1;
  for (const byte of bytes) crc = (crc >>> 8) ^ TABLE[(crc ^ byte) & 0xff];
  return ((crc ^ -1) >>> 0).toString(16).padStart(8, "0");
}

const TABLE = Int32Array.from({ length: 256 }, (_, byte) => {
  let bits = byte;
  for (let i = 0; i < 8; i++) bits = bits & 1 ? (bits >>> 1) ^ 0xedb88320 : bits >>> 1;
  return bits;
});
