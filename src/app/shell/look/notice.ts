/** A note in a frame behind its sign (`sheetStyles` has how it looks). */
import { html, nothing, type TemplateResult } from "lit";
import { icon } from "./icon.ts";

export interface NoticeOptions {
  readonly testId?: string;
  /** Said at once to who hears the page, or when there is a pause. */
  readonly role?: "alert" | "status";
}

/** Something to know. */
export const notice = (
  words: unknown,
  { sign = "info", ...options }: NoticeOptions & { readonly sign?: string } = {},
): TemplateResult => framed("notice", sign, words, options);

/** Something that is wrong, or can go wrong. */
export const warning = (words: unknown, options: NoticeOptions = {}): TemplateResult =>
  framed("notice wrong", "warning", words, options);

const framed = (
  kind: string,
  sign: string,
  words: unknown,
  { testId, role }: NoticeOptions,
): TemplateResult =>
  html`<p class=${kind} role=${role ?? nothing} data-testid=${testId ?? nothing}>${icon(sign)}<span>${words}</span></p>`;
