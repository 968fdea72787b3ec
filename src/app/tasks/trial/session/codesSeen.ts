/**
 * Trials whose codes this browser has shown opened. Undo seals a trial again; what was seen stays seen, and a trial that is
 * opened for the second time says so. A browser that keeps nothing forgets this too.
 */
import { browserShelves, type Shelf } from "../../../state/keeping/shelves.ts";

const KEY = "annulus-trials-opened";
const MOST = 100;

export function rememberSeen(trial: string, shelf: Shelf | null = browserShelves().browser): void {
  if (haveSeen(trial, shelf)) return;
  try {
    shelf?.setItem(KEY, JSON.stringify([...seen(shelf), trial].slice(-MOST)));
  } catch {
    // it is full, or forbids it
  }
}

export const haveSeen = (trial: string, shelf: Shelf | null = browserShelves().browser): boolean =>
  seen(shelf).includes(trial);

function seen(shelf: Shelf | null): readonly unknown[] {
  try {
    const kept: unknown = JSON.parse(shelf?.getItem(KEY) ?? "[]");
    return Array.isArray(kept) ? kept : [];
  } catch {
    return [];
  }
}
