/** What contradicts the gap of the job that is open, a notice each. */
import { html, type TemplateResult } from "lit";
import type { Contradiction } from "../../bench/fit/contradiction.ts";
import type { LengthUnit } from "../../units/length.ts";
import { contradictionWords } from "../../words/bench/contradiction.ts";
import { warning } from "./look/notice.ts";

export const doubtNotices = (doubts: readonly Contradiction[], unit: LengthUnit): readonly TemplateResult[] =>
  doubts.map((doubt) =>
    warning(
      html`${contradictionWords(doubt, unit)} <a href="#measure">Measure</a> <a href="#edit">Edit</a>`,
      { testId: "doubt" },
    ),
  );
