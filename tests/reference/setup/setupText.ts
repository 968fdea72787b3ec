/** A setup as its file has it: a point of a profile on one line, as people read tables. */
export const setupText = (setup: object): string =>
  `${JSON.stringify(setup, null, 2).replace(/\[\s+(-?[\d.]+),\s+(-?[\d.]+)\s+\]/g, "[$1, $2]")}\n`;
