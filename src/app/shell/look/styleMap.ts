/**
 * Lit's `styleMap`, but through the style object from the first drawing on. Lit's own writes the first values as a style
 * attribute, which the content security policy forbids. vite.config.ts puts this one in its place, so that elements of
 * packages use it too; import it as `lit/directives/style-map.js`.
 */
import { noChange } from "lit";
import { type AttributePart, Directive, directive, type PartInfo, PartType } from "lit/directive.js";

export type StyleInfo = Readonly<Record<string, string | number | null | undefined>>;

class StyleMap extends Directive {
  #set = new Set<string>();

  constructor(part: PartInfo) {
    super(part);
    if (part.type !== PartType.ATTRIBUTE || part.name !== "style" || (part.strings?.length ?? 0) > 2)
      throw new Error("styleMap is for the style attribute and must be all of it");
  }

  override render(_: StyleInfo): typeof noChange {
    return noChange;
  }

  override update(part: AttributePart, [info]: [StyleInfo]): typeof noChange {
    const { style } = part.element as HTMLElement;
    const given = Object.entries(info).filter(([, value]) => value !== null && value !== undefined);
    const names = new Set(given.map(([name]) => cssName(name)));
    for (const name of this.#set) if (!names.has(name)) style.removeProperty(name);
    for (const [name, value] of given) {
      const [, text, priority] = /^(.*?)\s*(?:!(important))?$/s.exec(`${value}`)!;
      style.setProperty(cssName(name), text, priority);
    }
    this.#set = names;
    return noChange;
  }
}

export const styleMap = directive(StyleMap);

/** `backgroundColor` as CSS has it; a custom property as it is. */
const cssName = (name: string): string =>
  name.includes("-") ? name : name.replace(/[A-Z]/g, "-$&").toLowerCase();
