import { colour, fontFamily, type Theme, tokens } from "./tokens.ts";

const variable = /var\(--([\w-]+)(?:,\s*([^()]*))?\)/g;

/** Paper around the drawing, px. */
const margin = 16;

/** A drawing as the text of a file that stands alone: colours of the theme written out, paper underneath, fonts named. */
export function standaloneSvg(svg: SVGSVGElement, theme: Theme): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  for (const hit of copy.querySelectorAll(".hit")) hit.remove();
  for (const part of copy.querySelectorAll("[cursor]")) part.removeAttribute("cursor");
  copy.setAttribute("font-family", fontFamily);
  const paper = svg.ownerDocument.createElementNS(svg.namespaceURI, "rect");
  const [width, height] = ["width", "height"].map((side) => Number(svg.getAttribute(side)) + 2 * margin);
  const sides = { x: -margin, y: -margin, width, height };
  for (const [name, value] of Object.entries(sides)) paper.setAttribute(name, `${value}`);
  copy.setAttribute("width", `${width}`);
  copy.setAttribute("height", `${height}`);
  copy.setAttribute("viewBox", Object.values(sides).join(" "));
  paper.setAttribute("fill", colour("paper"));
  copy.querySelector("desc")?.after(paper);
  const text = new (svg.ownerDocument.defaultView ?? globalThis).XMLSerializer().serializeToString(copy);
  const resolved = text.replace(
    variable,
    (_, name: string, fallback?: string) => tokens[theme][name] ?? fallback ?? "none",
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${resolved}\n`;
}
