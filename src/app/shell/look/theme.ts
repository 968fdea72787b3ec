/** The palettes as CSS custom properties: light, dark where the system or the person asks for it, and black on white in print. */
import { fontFamily, tokens } from "../../../charts/kit/tokens.ts";
import type { ThemeChoice } from "../../state/state.ts";

/** A palette as declarations; an element that is paper whatever the theme sets its own. */
export const properties = (theme: keyof typeof tokens): string =>
  Object.entries(tokens[theme])
    .map(([name, value]) => `--${name}: ${value};`)
    .join(" ");

/** With what stands in for the first of them until it is there (`standIn.css`). */
const pageFontFamily = fontFamily.replace(",", ", 'Stand-in', 'Wide Stand-in',");

const sheetText = `
  :root {
    ${properties("light")}
    color-scheme: light dark;
    --type-12: 0.75rem;
    --type-14: 0.875rem;
    --type-16: 1rem;
    --type-20: 1.25rem;
    --type-28: 1.75rem;
    --type-44: 2.75rem;
    --edge: clamp(0.75rem, 2vw, 1.5rem);
    --touch: 2.25rem;
    font-family: ${pageFontFamily};
    font-variant-numeric: tabular-nums;
    line-height: 1.35;
    background: var(--paper);
    color: var(--ink);
    accent-color: var(--gap);
    -webkit-text-size-adjust: 100%;
  }
  /* a projector is read from the back of the room */
  @media (min-width: 1700px) { :root { font-size: 20px; } }
  /* a thumb is broader than an arrow */
  @media (max-width: 699px), (pointer: coarse) { :root { --touch: 2.75rem; } }
  @media (prefers-color-scheme: dark) { :root:not([data-theme="light"]) { ${properties("dark")} } }
  :root[data-theme="light"] { color-scheme: light; }
  :root[data-theme="dark"] { ${properties("dark")} color-scheme: dark; }
  body { margin: 0; }
  @media print {
    :root:root:root { ${properties("print")} color-scheme: light; font-size: 12px; }
    @page { size: A4; margin: 12mm; }
  }
`;

/** Puts the palettes on the page; once. */
export function usePalettes(page: Document = document): void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(sheetText);
  page.adoptedStyleSheets = [...page.adoptedStyleSheets, sheet];
}

/** Shows what the person chose. */
export function showTheme(choice: ThemeChoice, root: HTMLElement = document.documentElement): void {
  if (choice === "auto") delete root.dataset.theme;
  else root.dataset.theme = choice;
}

/** What is on the screen now: an exported drawing looks like it. */
export function shownTheme(root: HTMLElement = document.documentElement): "light" | "dark" {
  const { theme } = root.dataset;
  if (theme === "light" || theme === "dark") return theme;
  return matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
}
