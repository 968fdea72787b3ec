/** Why a folder cannot be written to, and what a person is told of it. */
import { troubleOf } from "../record/trouble.ts";

/** `asks`: the browser wants the person's leave again. */
export type FolderTrouble = "asks" | "gone" | "full" | "failed";

export function folderTrouble(error: unknown): FolderTrouble {
  const { name } = error as DOMException;
  if (name === "NotAllowedError" || name === "SecurityError") return "asks";
  if (name === "NotFoundError") return "gone";
  return ["full", "unwritable"].includes(troubleOf(error)) ? "full" : "failed";
}

export function folderTroubleText(trouble: FolderTrouble, folder: string): string {
  const words: Readonly<Record<FolderTrouble, string>> = {
    asks: `The browser wants your permission again before this page may write to the folder “${folder}”`,
    gone: `The folder “${folder}” is not there any more: it was moved, renamed or deleted, or its drive is not connected`,
    full: `The disk with the folder “${folder}” is full`,
    failed: `The browser could not write to the folder “${folder}”`,
  };
  return `${words[trouble]}. The backup there is not up to date.`;
}
