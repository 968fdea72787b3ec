/** A leadpipe's dimensions as typed, and the leadpipe they make; or what is wrong with each, beside it. */

import { leadpipeOfShape } from "../../../setup/bore/leadpipeShape.ts";
import { exitBoreMm, profileLengthMm } from "../../../setup/geometry.ts";
import type { ProfileMm } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { OutOfRange } from "../../../units/outOfRange.ts";
import { readFields, sentence } from "../../form/field.ts";
import { lengthText } from "../../form/setup/edits.ts";
import { SHAPE_FIELDS, type ShapeNotes } from "../notes/compare.ts";

export interface ShapeReading {
  readonly problems: Readonly<Partial<Record<keyof ShapeNotes, string>>>;
  /** Why the dimensions together make no leadpipe. */
  readonly problem: string;
  /** null while they make none. */
  readonly profileMm: ProfileMm | null;
}

export function readShape(shape: ShapeNotes, unit: LengthUnit): ShapeReading {
  const { values, problems } = readFields(SHAPE_FIELDS, shape, unit);
  const { entry, narrowestAt, entryTaper, taper, end, length } = values;
  const nothing = { problems, problem: "", profileMm: null };
  if (entry === undefined || end === undefined || length === undefined) return nothing;
  if (Object.keys(problems).length > 0) return nothing;
  try {
    const profileMm = leadpipeOfShape({
      entryDiameterMm: entry,
      narrowestAtMm: narrowestAt ?? 0,
      entryTaper: entryTaper ?? 0,
      endDiameterMm: end,
      lengthMm: length,
      ...(taper !== undefined && { taper }),
    });
    return { ...nothing, profileMm };
  } catch (error) {
    if (!(error instanceof OutOfRange)) throw error;
    return { ...nothing, problem: sentence(error.message) };
  }
}

/** The dimensions of a leadpipe that there is, to begin with: its narrowest place, its ends and its length. */
export function shapeLike(profileMm: ProfileMm, unit: LengthUnit): ShapeNotes {
  const [[startMm, entryMm]] = profileMm;
  const [narrowestMm, narrowestDiameterMm] = profileMm.reduce((a, b) => (b[1] < a[1] ? b : a));
  const narrowestAtMm = narrowestMm - startMm;
  const text = (lengthMm: number) => lengthText(lengthMm, unit);
  return {
    name: "",
    entry: text(entryMm),
    narrowestAt: text(narrowestAtMm),
    entryTaper:
      narrowestAtMm > 0 ? `${Number(((entryMm - narrowestDiameterMm) / narrowestAtMm).toPrecision(4))}` : "",
    taper: "",
    end: text(exitBoreMm(profileMm)),
    length: text(profileLengthMm(profileMm)),
  };
}
