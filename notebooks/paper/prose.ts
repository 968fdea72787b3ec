import { html, render } from "lit";

/** Prose with live figures: HTML with values, or nodes, where the template names them. */
export function prose(strings: TemplateStringsArray, ...values: unknown[]): HTMLElement {
  const block = document.createElement("div");
  render(html(strings, ...values), block);
  return block;
}

/** A value that its unit is not parted from at the end of a line. */
export const unbroken = (value: string): string => value.replaceAll(" ", "\u00a0");
