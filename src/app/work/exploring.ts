/** Asks the model what follows a chosen gap: what is drawn comes first, what is judged of it after. */
import type { Model } from "../../../workers/instrument/model.ts";
import type { Refusal } from "../../../workers/service/served.ts";
import type { Setup } from "../../setup/setup.ts";
import type { ExploredUnderBreath, PicturedUnderBreath } from "../../study/blown/underBreath.ts";
import type { AtGap } from "../../study/instrument/exploration.ts";
import type { Methods } from "./connection.ts";
import { sameToModel } from "./sameToModel.ts";

export interface Exploring {
  readonly setup: Setup;
  readonly gapMm: number;
  readonly referenceGapMm: number;
  readonly resonance: number;
  readonly retune: number | null;
  /** 0: still air. */
  readonly litresPerMinute: number;
}

/** What is compared with, and in what. */
export type BesideReference = Pick<Exploring, "setup" | "referenceGapMm" | "litresPerMinute">;

export const isBesideSame = (a: BesideReference, b: BesideReference): boolean =>
  sameToModel(a.setup, b.setup) &&
  a.referenceGapMm === b.referenceGapMm &&
  a.litresPerMinute === b.litresPerMinute;

export class Explorer {
  #known: { readonly of: BesideReference; readonly reference: AtGap } | null = null;

  /**
   * Both questions are sent at once, so that the worker does not wait for the second.
   * @param tell gets what is drawn, while the rest is worked out
   */
  async ask(
    model: Methods<Model>,
    question: Exploring,
    tell: (pictured: PicturedUnderBreath) => void,
  ): Promise<ExploredUnderBreath | Refusal> {
    const { gapMm, referenceGapMm, resonance, retune, litresPerMinute } = question;
    const known = this.#known && isBesideSame(this.#known.of, question) ? this.#known.reference : null;
    const picturing = model.picture(gapMm, referenceGapMm, resonance, litresPerMinute, known !== null);
    const judging = model.judge(gapMm, referenceGapMm, retune, litresPerMinute);
    const answer = await picturing;
    if ("refused" in answer) return answer;
    // one and the same object while only the chosen gap moves: it is not drawn anew then
    const reference = answer.reference ?? known!;
    this.#known = { of: question, reference };
    const chosen = gapMm === referenceGapMm ? reference : alongSame(answer.chosen, reference);
    const pictured = { ...answer, reference, chosen };
    tell(pictured);
    const judged = await judging;
    return "refused" in judged ? judged : { ...pictured, ...judged };
  }
}

/** A setup's curves are all over the same frequencies: one list of them, so that what is placed by it is placed once. */
const alongSame = ({ curve, ...at }: AtGap, { curve: { frequencies } }: AtGap): AtGap => ({
  ...at,
  curve: { ...curve, frequencies },
});
