/** Scales that drawing offices use (ISO 5455), and how they are written. */
const TIMES = [10, 5, 4, 3, 2, 1] as const;

/** The largest at which a part of this size has room; never smaller than it is. */
export const enlargement = (
  [length, width]: readonly [number, number],
  [roomLength, roomWidth]: readonly [number, number],
): number => TIMES.find((times) => times * length <= roomLength && times * width <= roomWidth) ?? 1;

export const scaleWords = (times: number): string =>
  times === 1 ? "Scale 1:1, true size" : `Scale ${times}:1`;
