/** The name of what stands on the browser's shelves: asked for before anything else of the page is there. */
export const SHELF_KEY = "annulus-autosave";

/** Whether this browser has kept anything of an earlier visit where it can be seen without waiting. */
export function isAnythingKept(page: Window = window): boolean {
  try {
    return (page.sessionStorage.getItem(SHELF_KEY) ?? page.localStorage.getItem(SHELF_KEY)) !== null;
  } catch {
    // its settings forbid to look
    return false;
  }
}
