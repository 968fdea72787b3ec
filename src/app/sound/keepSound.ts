/** The sound of a take, kept beside its numbers where that was asked for. */
import type { Store } from "../state/store.ts";
import type { Recordings } from "./recordings.ts";

/** Whether the browser kept it; that it did not is said. @param of what takes of its kind stand under among the recordings */
export async function keepSound(
  recordings: Recordings,
  of: string,
  id: string,
  sound: Blob,
  store: Store,
): Promise<boolean> {
  try {
    await recordings.keep(of, id, sound);
    return true;
  } catch {
    store.say(
      "error",
      "This browser does not keep the sound (a private window, or its storage is full); the numbers are kept.",
    );
    return false;
  }
}
