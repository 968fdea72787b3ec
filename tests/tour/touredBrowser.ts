/** A browser as the tour needs it: a page that is opened, loaded again, read and used by mouse and keys. */

/** Selectors, each sought within what the one before has found, in whatever shadow; the first in sight is meant. */
export type Way = readonly string[];

export interface TouredBrowser {
  open(address: string): Promise<void>;
  reload(): Promise<void>;
  /** What can be read there now; null where nothing is. */
  text(way: Way): Promise<string | null>;
  click(way: Way): Promise<void>;
  /** Types over what stands in a field, and Enter. */
  type(way: Way, text: string): Promise<void>;
  /** What a function gives in the page; it uses nothing from around itself. */
  run<T>(inPage: () => T): Promise<Awaited<T>>;
  /** A picture of what is to be seen, PNG. */
  picture(): Promise<Uint8Array>;
  /** What went wrong on the page since it was first opened. */
  complaints(): Promise<readonly string[]>;
  close(): Promise<void>;
}

export const byTestId = (id: string): string => `[data-testid="${id}"]`;
