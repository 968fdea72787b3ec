/**
 * The page's own icons, for `<wa-icon name="undo">` and for those that the element library draws inside its elements. A
 * sprite sheet is drawn by reference and never fetched by script: the content security policy stays strict, and the
 * library's own source, which lies on another host, is never asked.
 */
import { registerIconLibrary } from "@awesome.me/webawesome/dist/components/icon/library.js";
import sheet from "./look/icons.svg?url";

const resolver = (name: string): string => `${sheet}#${name}`;

export function useOwnIcons(): void {
  registerIconLibrary("default", { resolver, spriteSheet: true });
  registerIconLibrary("system", { resolver, spriteSheet: true });
}
