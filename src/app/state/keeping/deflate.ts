/** Text to compressed bytes and back (zlib's format, whose checksum notices damage), by what the platform has. */

export const deflateText = async (text: string): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(
    await new Response(through(new Blob([text]), new CompressionStream("deflate"))).arrayBuffer(),
  );

/**
 * @param longest most characters there may be: a few bytes can stand for gigabytes
 * @throws TypeError on bytes that are damaged in any bit, RangeError on too long a text
 */
export async function inflateText(bytes: Uint8Array<ArrayBuffer>, longest: number): Promise<string> {
  const text = await inflated(bytes, longest);
  const other = withoutLastBit(bytes);
  const isSame = other && (await inflated(other, longest).catch(() => null)) === text;
  if (isSame) throw new TypeError("a bit is set that says nothing");
  return text;
}

/** Of the checksum at the end. */
const CHECKSUM_BYTES = 4;

/**
 * Without the last bit that is set before the checksum: bits after the last code fill up its byte and are nought, and whether
 * one of them was set only shows by its saying nothing. Null: none is set.
 */
function withoutLastBit(bytes: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer> | null {
  const at = bytes.length - CHECKSUM_BYTES - 1;
  if (!bytes[at]) return null;
  const other = bytes.slice();
  other[at] ^= 1 << (31 - Math.clz32(bytes[at]));
  return other;
}

async function inflated(bytes: Uint8Array<ArrayBuffer>, longest: number): Promise<string> {
  const reader = through(new Blob([bytes]), new DecompressionStream("deflate"))
    .pipeThrough(new TextDecoderStream("utf-8", { fatal: true }))
    .getReader();
  let text = "";
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return text;
    text += value;
    if (text.length > longest) {
      await reader.cancel();
      throw new RangeError(`longer than ${longest} characters`);
    }
  }
}

const through = (
  blob: Blob,
  stream: CompressionStream | DecompressionStream,
): ReadableStream<Uint8Array<ArrayBuffer>> =>
  blob.stream().pipeThrough(stream as ReadableWritablePair<Uint8Array<ArrayBuffer>, BufferSource>);
