/**
 * Which changes a job has been through: how many each browser made, a version vector (Parker et al. 1983, from memory). Of
 * two copies of a job one is the newer if it has been through all the other has; if neither has, they diverged. A clock
 * or a single count could not tell, and the work of one browser would be lost under the other's.
 */
export type Revision = Readonly<Record<string, number>>;

/** A job as it first stands in a browser's record. */
export const firstRevision = (browser: string): Revision => ({ [browser]: 1 });

/** After one more change by a browser. */
export const nextRevision = (revision: Revision, browser: string): Revision => ({
  ...revision,
  [browser]: (revision[browser] ?? 0) + 1,
});

/** Whether `a` has been through all that `b` has. */
export const includesRevision = (a: Revision, b: Revision): boolean =>
  Object.entries(b).every(([browser, count]) => (a[browser] ?? 0) >= count);

/** Whether two copies have been through the same changes. */
export const sameRevision = (a: Revision, b: Revision): boolean =>
  includesRevision(a, b) && includesRevision(b, a);

/** Of a copy that has seen both. */
export const joinedRevision = (a: Revision, b: Revision): Revision =>
  Object.fromEntries(
    [...Object.keys(a), ...Object.keys(b)].map((browser) => [
      browser,
      Math.max(a[browser] ?? 0, b[browser] ?? 0),
    ]),
  );
