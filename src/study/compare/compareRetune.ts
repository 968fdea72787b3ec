/**
 * An instrument brought to a common pitch, so that leadpipes are compared as they would be played. The tuning slide does it;
 * a setup without one gets its length at the start of the body instead, a cylinder of the body's bore there, which is what
 * shifting all that follows along a longer or shorter tube amounts to. Which of the two it was is told.
 */
import { OutOfRange } from "../../units/outOfRange.ts";
import { Instrument, type Mode } from "../instrument/instrument.ts";

export interface Retuned {
  /** Length put in, mm; negative is taken out. */
  readonly drawMm: number;
  readonly by: "the tuning slide" | "length at the start of the body";
  readonly modes: readonly Mode[];
  /** Whose slide that is: `instrument` or one with the length at the start of its body. */
  readonly instrument: Instrument;
}

/** @throws OutOfRange in words where it cannot be brought there */
export function retuned(instrument: Instrument, gapMm: number, n: number, targetHz: number): Retuned {
  const { setup } = instrument;
  const hasSlide = setup.body.slideAtMm !== undefined;
  const slidden = hasSlide ? instrument : withLengthAtStart(instrument);
  try {
    const drawMm = slidden.drawFor(n, targetHz, gapMm);
    return {
      drawMm,
      by: hasSlide ? "the tuning slide" : "length at the start of the body",
      modes: slidden.modes(gapMm, drawMm),
      instrument: slidden,
    };
  } catch (error) {
    if (!(error instanceof OutOfRange) || hasSlide) throw error;
    throw new OutOfRange(
      `no tuning slide, and the body cannot be shortened at its start either (${error.message}); give body.slideAt`,
    );
  }
}

function withLengthAtStart(like: Instrument): Instrument {
  const { setup } = like;
  const slideAtMm = setup.body.profileMm[0][0];
  return new Instrument({ ...setup, body: { ...setup.body, slideAtMm } }, { like });
}
