/** Whether a key asks for undo or redo; false for any other. */
export function isUndoKey({
  key,
  ctrlKey,
  metaKey,
  shiftKey,
  altKey,
}: KeyboardEvent): "undo" | "redo" | false {
  if (!(ctrlKey || metaKey) || altKey) return false;
  if (key.toLowerCase() === "z") return shiftKey ? "redo" : "undo";
  return key.toLowerCase() === "y" && "redo";
}
