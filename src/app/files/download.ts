/** Hands the person a text as a file in the browser's own way, without asking where. */
export function download(text: string, fileName: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = fileName;
  link.click();
  // the browser reads the blob after the click has returned
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
