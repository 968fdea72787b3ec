/** What all drawings share: the frame they are given, what they hand back, and the few ways to put a mark on the sheet. */
import type { InstrumentKind } from "../../setup/instrumentKind.ts";
import type { LengthUnit } from "../../units/length.ts";
import { change, put, putSheet } from "./redraw.ts";
import { type Paint, painted } from "./tokens.ts";

export interface Frame {
  /** px */
  readonly width: number;
  /** px; the most a drawing may take, where its height follows from its scale. */
  readonly height: number;
  readonly unit: LengthUnit;
  /** Whose player reads the notes; without it partials go by their numbers alone. */
  readonly instrument?: InstrumentKind;
  /** The document the elements are made in, where there is no global one. */
  readonly document?: Document;
  /** A drawing that becomes this one, what is the same in both untouched; a new one is made without. See `redraw.ts`. */
  readonly over?: SVGSVGElement | undefined;
}

/** From data to px and back. */
export interface Scale {
  (value: number): number;
  invert(px: number): number;
  domain(): number[];
  range(): number[];
}

/** A rectangle on the sheet, px. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Drawing {
  readonly svg: SVGSVGElement;
  readonly x: Scale;
  readonly y: Scale;
  /** Where data are drawn, without titles and axes. */
  readonly plot: Box;
}

/** What a drawing shows, in numbers of full precision; a missing one is an empty string. */
export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly (string | number)[])[];
}

export type Point = readonly [x: number, y: number];

/** Colours go by name. */
export type Attributes = Readonly<Record<string, string | number | undefined>> & {
  readonly fill?: Paint;
  readonly stroke?: Paint;
};

/** Coordinates keep a tenth of a px: finer cannot be seen, and files stay small and comparable. */
export const px = (value: number): number => Math.round(value * 10) / 10;

/** Puts down an element; an undefined attribute is left out, the name of a colour becomes the colour. */
export function add<K extends keyof SVGElementTagNameMap>(
  parent: Element,
  name: K,
  attributes: Attributes = {},
  text?: string,
): SVGElementTagNameMap[K] {
  const written: Record<string, string> = {};
  for (const key in attributes) {
    const value = attributes[key];
    if (value === undefined) continue;
    const isPaint = key === "fill" || key === "stroke";
    written[key] = typeof value === "number" ? `${px(value)}` : isPaint ? painted(value) : value;
  }
  return put(parent, name, written, text);
}

export interface SheetOptions {
  readonly name: string;
  readonly title: string;
  /** The finding in words and numbers, for who cannot see the drawing. */
  readonly description: string;
  /** A `group` has parts to take hold of; an `img` has none. */
  readonly role?: "img" | "group";
}

export function sheet(frame: Frame, { name, title, description, role = "img" }: SheetOptions): SVGSVGElement {
  const svg = putSheet(frame.document ?? globalThis.document, frame.over);
  change(svg, { class: `drawing ${name}`, role, fill: "none" });
  if (svg !== frame.over) svg.style.setProperty("font-variant-numeric", "tabular-nums");
  resize(svg, frame.width, frame.height);
  add(svg, "title", {}, title);
  add(svg, "desc", {}, description);
  return svg;
}

export function resize(svg: SVGSVGElement, width: number, height: number): void {
  const [w, h] = [`${px(width)}`, `${px(height)}`];
  change(svg, { width: w, height: h, viewBox: `0 0 ${w} ${h}` });
}

/** The scale of type: a sheet for a projector is read from further away. */
export const typeSizes = ({ width }: Pick<Frame, "width">): { small: number; large: number } =>
  width >= 800 ? { small: 14, large: 16 } : { small: 12, large: 14 };

export interface TextStyle {
  readonly size: number;
  readonly anchor?: "start" | "middle" | "end";
  readonly fill?: Paint | undefined;
  readonly weight?: number | undefined;
  /** A rim of paper, where text stands on lines; none in print. */
  readonly halo?: boolean;
  readonly transform?: string;
  /** What it tells, for who looks for it in the drawing. */
  readonly part?: string;
  readonly class?: string;
}

export function write(parent: Element, text: string, x: number, y: number, style: TextStyle): SVGTextElement {
  const { size, anchor = "start", fill = "ink", weight, halo, transform, part } = style;
  return add(
    parent,
    "text",
    {
      x,
      y,
      "font-size": size,
      "text-anchor": anchor === "start" ? undefined : anchor,
      fill,
      "font-weight": weight,
      transform,
      ...(halo && {
        stroke: "halo",
        "stroke-width": 4,
        "stroke-linejoin": "round",
        "paint-order": "stroke",
      }),
      "data-part": part,
      class: style.class,
    },
    text,
  );
}

/** About how wide a text will be, px; no drawing can wait to measure it. Errs on the wide side. */
export const textWidth = (text: string, size: number): number => 0.57 * size * text.length;

export const rule = (
  parent: Element,
  [x1, y1]: Point,
  [x2, y2]: Point,
  stroke: Paint,
  width = 1,
  dash?: string,
) => add(parent, "line", { x1, y1, x2, y2, stroke, "stroke-width": width, "stroke-dasharray": dash });

export const polygonPath = (points: readonly Point[]): string =>
  `M${points.map(([x, y]) => `${px(x)},${px(y)}`).join("L")}Z`;

export const clamp = (value: number, low: number, high: number): number =>
  Math.max(low, Math.min(high, value));

/** Takes a pointer where nothing is seen. */
export const hitArea = (parent: Element, { left, top, right, bottom }: Box) =>
  add(parent, "rect", {
    class: "hit",
    x: left,
    y: top,
    width: right - left,
    height: bottom - top,
    fill: "transparent",
    "pointer-events": "all",
  });
