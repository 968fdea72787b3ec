/** From 0 to 1 as x does, with level ends: how a sweep or a window begins and ends. */
export const ramp = (x: number): number => (x >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * Math.max(0, x)));
