/** Hands the person a file in the browser's own way, without asking where. */
export function download(content: string | Blob, fileName: string): void {
  const link = document.createElement("a");
  const blob = typeof content === "string" ? new Blob([content], { type: "application/json" }) : content;
  link.href = URL.createObjectURL(blob);
  link.download = fileName;
  link.click();
  // the browser reads the blob after the click has returned
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
