// @vitest-environment jsdom
/** The verdict on slots as it is drawn: slots over all sets of lips take seconds. */
import { expect, test } from "vitest";
import { standaloneSvg } from "../../../src/charts/kit/exportSvg.ts";
import { verdictBar } from "../../../src/charts/plots/verdictBar.ts";
import { slotEvidence } from "../../../src/study/feel/feltVerdicts.ts";
import { MODAL_COUNT } from "../../../src/study/feel/modalColumn.ts";
import { slotChange } from "../../../src/study/feel/slotChange.ts";
import { Instrument } from "../../../src/study/instrument/instrument.ts";
import { referenceGapMm, setup } from "../examples.ts";

test("picture: verdict-hold", async () => {
  const instrument = new Instrument(setup, { modes: MODAL_COUNT });
  const [verdict] = slotEvidence(slotChange(instrument, 5.04, { referenceGapMm })).tests;
  const file = standaloneSvg(
    verdictBar(verdict, { width: 260, height: 56, unit: "mm", instrument: "b-flat-trumpet" }).svg,
    "light",
  );
  expect(file).not.toMatch(/var\(|NaN|undefined|Infinity/);
  await expect(file).toMatchFileSnapshot("../../snapshots/charts/plots/verdict-hold.svg");
});
