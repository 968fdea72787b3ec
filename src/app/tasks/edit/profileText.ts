/** A profile as text for a spreadsheet: tabs, a heading that names the unit, every digit there is. */
import type { ProfileMm } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { exactLengthText } from "../../form/setup/edits.ts";

export function profileText(profileMm: ProfileMm, unit: LengthUnit): string {
  const rows = profileMm.map((point) => point.map((lengthMm) => exactLengthText(lengthMm, unit)));
  return [[`position (${unit})`, `inner diameter (${unit})`], ...rows]
    .map((row) => `${row.join("\t")}\n`)
    .join("");
}
