/** Puts a text on the clipboard; says in words how that went. */
export async function copyText(text: string, what: string): Promise<string> {
  try {
    await navigator.clipboard.writeText(text);
    return `${what} copied.`;
  } catch {
    return "The browser does not allow copying here: select the text and copy it by hand.";
  }
}
