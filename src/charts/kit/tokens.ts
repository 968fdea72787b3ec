/**
 * The palettes, once: the page turns them into CSS custom properties, an exported drawing carries the values themselves.
 * Resonances have nine shades of one hue, the lowest played one nearest to the paper.
 */
import { interpolateHcl, rgb } from "d3";

export type Theme = "light" | "dark" | "print";

const shades = 9;
const lowestShaded = 2;

const named = {
  light: {
    paper: "#FBFAF6",
    halo: "#FBFAF6",
    ink: "#1D2930",
    muted: "#59646A",
    hairline: "#CFC9BA",
    metal: "#F3E9CF",
    "metal-hatch": "#B08D3C",
    gap: "#C2410C",
    reference: "#2F6690",
    measured: "#5B4A8A",
    feel: "#D6CFBD",
  },
  dark: {
    paper: "#12171A",
    halo: "#12171A",
    ink: "#E8E4DA",
    muted: "#A3A79F",
    hairline: "#3B4449",
    metal: "#2B281E",
    "metal-hatch": "#8F7638",
    gap: "#F97B45",
    reference: "#74AEDB",
    measured: "#AC9DDC",
    feel: "#333D42",
  },
  print: {
    paper: "#FFFFFF",
    // some readers of PDF paint the rim over its letters
    halo: "none",
    ink: "#000000",
    muted: "#4A4A4A",
    hairline: "#BDBDBD",
    metal: "#F4F4F4",
    "metal-hatch": "#8A8A8A",
    gap: "#C2410C",
    reference: "#4A4A4A",
    measured: "#4A4A4A",
    feel: "#D9D9D9",
  },
} as const;

const seriesEnds = {
  light: ["#6F9A86", "#123B2E"],
  dark: ["#55796A", "#CDEBDD"],
  print: ["#8C8C8C", "#000000"],
} as const;

export type TokenName = keyof typeof named.light | `series-${number}`;
export type Palette = Readonly<Record<string, string>>;

function palette(theme: Theme): Palette {
  const shade = interpolateHcl(seriesEnds[theme][0], seriesEnds[theme][1]);
  const series = Array.from({ length: shades }, (_, i) => [
    `series-${i + 1}`,
    rgb(shade(i / (shades - 1)))
      .formatHex()
      .toUpperCase(),
  ]);
  return { ...named[theme], ...Object.fromEntries(series) };
}

/** Colours by theme and name; as CSS each is the custom property `--name`. */
export const tokens: Readonly<Record<Theme, Palette>> = {
  light: palette("light"),
  dark: palette("dark"),
  print: palette("print"),
};

/** A colour for an SVG attribute: the page's custom property, the light theme's value where there is none. */
export const colour = (name: TokenName): `var(${string}` => `var(--${name}, ${tokens.light[name]})`;

/** What a mark is drawn with: a colour of the palette by its name, as CSS, or nothing that is seen. */
export type Paint = TokenName | `var(${string}` | "transparent";

/** A paint as SVG takes it. */
export const painted = (paint: string): string =>
  Object.hasOwn(tokens.light, paint) ? colour(paint as TokenName) : paint;

/** The shade of a resonance, by its number. */
export const resonanceColour = (n: number): TokenName =>
  `series-${Math.min(shades, Math.max(1, n - lowestShaded + 1))}`;

/** What an exported file asks for; the page sets its own. */
export const fontFamily = [
  "'Source Sans 3 Variable'",
  "'Source Sans 3'",
  "'Noto Sans'",
  "'Segoe UI'",
  "Helvetica",
  "Arial",
  "'Liberation Sans'",
  "'DejaVu Sans Condensed'",
  "sans-serif",
].join(", ");
