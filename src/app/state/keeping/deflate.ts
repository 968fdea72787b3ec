/** Text to compressed bytes and back (zlib's format, whose checksum notices damage), by what the platform has. */

export const deflateText = async (text: string): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(
    await new Response(through(new Blob([text]), new CompressionStream("deflate"))).arrayBuffer(),
  );

/**
 * @param longest most characters there may be: a few bytes can stand for gigabytes
 * @throws TypeError on bytes that are damaged, RangeError on too long a text
 */
export async function inflateText(bytes: Uint8Array<ArrayBuffer>, longest: number): Promise<string> {
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
