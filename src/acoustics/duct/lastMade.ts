/**
 * What was made last is found again by all that decides it: instruments of a row, or a search's, mostly differ in one part.
 * @param made the newest first; at most `most` of them are kept
 */
export function lastMade<Thing>(
  made: Thing[],
  most: number,
  isIt: (one: Thing) => boolean,
  make: () => Thing,
): Thing {
  const found = made.findIndex(isIt);
  const thing = found < 0 ? make() : made.splice(found, 1)[0];
  made.unshift(thing);
  if (made.length > most) made.pop();
  return thing;
}
