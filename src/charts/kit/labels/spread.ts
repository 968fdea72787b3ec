/**
 * Places for labels that want to stand at `wanted` (rising) but must keep `apart` and stay within `bounds`: the nearest
 * such places in the least-squares sense, by pooling neighbours that crowd each other. The caller sees to it that they fit.
 */
export function spread(
  wanted: readonly number[],
  apart: number,
  [low, high]: readonly [number, number],
): number[] {
  const blocks: { sum: number; count: number }[] = [];
  wanted.forEach((value, i) => {
    let block = { sum: value - i * apart, count: 1 };
    for (
      let last = blocks.at(-1);
      last && last.sum / last.count > block.sum / block.count;
      last = blocks.at(-1)
    ) {
      block = { sum: last.sum + block.sum, count: last.count + block.count };
      blocks.pop();
    }
    blocks.push(block);
  });
  const room = Math.max(low, high - (wanted.length - 1) * apart);
  return blocks
    .flatMap(({ sum, count }) => Array<number>(count).fill(sum / count))
    .map((value, i) => Math.min(room, Math.max(low, value)) + i * apart);
}
