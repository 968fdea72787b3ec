/** Rows of a bore profile: put in, taken out, replaced. */
import type { ProfileMm, Setup } from "../../../setup/setup.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { withoutRoundingNoise } from "../../../units/roundingNoise.ts";
import { fileInMm, type Outcome, readAltered } from "../../form/setup/edits.ts";
import type { Part } from "../../form/setup/paths.ts";

/** Between two rows the new one lies on the line that joins them and changes nothing; after the last, one row's way on. */
export function insertRowAfter(setup: Setup, part: Part, row: number): Outcome {
  const profileMm = setup[part].profileMm;
  const [positionMm, diameterMm] = profileMm[row];
  const next = profileMm[row + 1];
  if (next && next[0] === positionMm) {
    const at = formatLength(positionMm, "mm", 3);
    const message = `rows ${row + 1} and ${row + 2} are a step at ${at}, with nothing in between; add after row ${row + 2}`;
    return { problems: [{ path: `${part}.profile`, value: row, message }] };
  }
  const [atMm, boreMm] = next
    ? [(positionMm + next[0]) / 2, (diameterMm + next[1]) / 2]
    : [positionMm + lastWayMm(profileMm), diameterMm];
  const added = [withoutRoundingNoise(atMm), withoutRoundingNoise(boreMm)] as const;
  return withProfile(setup, part, profileMm.toSpliced(row + 1, 0, added));
}

export const removeRow = (setup: Setup, part: Part, row: number): Outcome =>
  withProfile(setup, part, setup[part].profileMm.toSpliced(row, 1));

/** Rows written over those from `from` on, as a spreadsheet pastes; over the whole profile where that is null. */
export function replaceRows(setup: Setup, part: Part, rowsMm: ProfileMm, from: number | null): Outcome {
  const profileMm = setup[part].profileMm;
  return withProfile(
    setup,
    part,
    from === null ? rowsMm : profileMm.toSpliced(from, rowsMm.length, ...rowsMm),
  );
}

/** The whole bore of the mouthpiece and its cup depth. */
export function withMouthpieceBore(setup: Setup, profileMm: ProfileMm, cupDepthMm: number): Outcome {
  const file = fileInMm(setup);
  Object.assign(file.mouthpiece as Record<string, unknown>, {
    profile: profileMm.map((point) => [...point]),
    cupDepth: cupDepthMm,
  });
  return readAltered(setup, file);
}

function withProfile(setup: Setup, part: Part, profileMm: ProfileMm): Outcome {
  const file = fileInMm(setup);
  (file[part] as Record<string, unknown>).profile = profileMm.map((point) => [...point]);
  return readAltered(setup, file);
}

/** From the last position before the end to the end. */
function lastWayMm(profileMm: ProfileMm): number {
  const endMm = profileMm[profileMm.length - 1][0];
  return endMm - profileMm.findLast(([positionMm]) => positionMm < endMm)![0];
}
