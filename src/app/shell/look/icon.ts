import { html, type TemplateResult } from "lit";
import sheet from "./icons.svg?url";

/** One of the page's own icons; it says nothing that words beside it or a label do not say. */
export const icon = (name: string): TemplateResult =>
  html`<svg class="icon" aria-hidden="true"><use href=${`${sheet}#${name}`}></use></svg>`;
