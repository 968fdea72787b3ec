const units = new Map<string, number>([
  ["mm", 1],
  ["cm", 10],
  ["m", 1000],
  ["um", 1e-3],
  ["in", 25.4],
  ["inch", 25.4],
  ["inches", 25.4],
  ["thou", 0.0254],
  ["ft", 304.8],
]);

/** How many mm one of the named unit is, upper and lower case alike; undefined when it is no unit of length here. */
export const mmPerUnit = (name: string): number | undefined => units.get(name.toLowerCase());
