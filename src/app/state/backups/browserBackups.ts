/** What the browser gives for backups: a place for notes, its dialog for folders, and one tab's turn after the other's. */
import { OwnDatabase } from "../keeping/ownDatabase.ts";
import type { BackupsOptions, Noted } from "./backups.ts";
import type { Folder } from "./folderFiles.ts";

/** In Chromium's family only, and not in the language's types. */
interface PickingWindow {
  showDirectoryPicker?(options: { readonly id: string; readonly mode: "readwrite" }): Promise<Folder>;
}

export function browserBackups(page: Window = window): Omit<BackupsOptions, "showJobs"> {
  const notes = new OwnDatabase<Noted>("annulus-backups");
  const { locks } = page.navigator;
  const canPick = "showDirectoryPicker" in page;
  return {
    notes,
    pick: canPick
      ? () => (page as PickingWindow).showDirectoryPicker!({ id: "backups", mode: "readwrite" })
      : null,
    alone: (act) => (locks ? locks.request("annulus-backups", act) : act()),
  };
}
