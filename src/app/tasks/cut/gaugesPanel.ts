/** Gauges to make from this receiver: a plug for its depth, a ring for shanks. */
import { css, html, type TemplateResult } from "lit";
import { usualGauge } from "../../../drawing/gaugeSheet.ts";
import { gapMm, type Setup } from "../../../setup/setup.ts";
import { GAUGE_TITLE } from "../../../words/bench/gauges.ts";
import "../../drawing/workshopDrawing.ts";
import { readFields } from "../../form/field.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import { segments } from "../../shell/look/segments.ts";
import { BENCH_GAUGES, GAUGE_FIELDS } from "../../state/notes/cut.ts";

/** @param plannedMm the gap that a ring is made for; the setup's own where none is planned */
export function gaugesPanel(
  form: NotesForm<"cut">,
  setup: Setup,
  plannedMm: number | undefined,
): TemplateResult {
  const { unit } = form;
  const { gauge } = form.notes;
  const { values, problems } = readFields(GAUGE_FIELDS, gauge, unit);
  const fields =
    gauge.kind === "plug"
      ? (["tolerance", "step"] as const)
      : (["tolerance", "step", "gapFrom", "gapTo"] as const);
  const wantedMm = plannedMm ?? gapMm(setup);
  const { limitMm } = usualGauge(unit);
  const isReadable = fields.every((field) => !problems[field]);
  const options = {
    unit,
    ...(values.tolerance !== undefined && { toleranceMm: values.tolerance }),
    ...(values.step !== undefined && { stepMm: values.step }),
    limitsMm: [
      values.gapFrom ?? Math.max(0, wantedMm - limitMm),
      values.gapTo ?? wantedMm + limitMm,
    ] as const,
  };
  return html`
    <section class="gauges" aria-labelledby="gauges">
      <h2 id="gauges">Gauges to make</h2>
      <div class="actions controls">
        ${segments(
          "Gauge",
          BENCH_GAUGES.map((value) => ({ value, text: GAUGE_TITLE[value] })),
          gauge.kind,
          (kind) => form.writeIn("gauge", { kind }),
        )}
      </div>
      <div class="limits">
        ${fields.map((field) => form.entry(GAUGE_FIELDS[field], ["gauge", field], problems[field], { testId: `gauge-${field}` }))}
      </div>
      <annulus-workshop-drawing .setup=${setup} .kind=${gauge.kind} .options=${isReadable ? options : null}></annulus-workshop-drawing>
    </section>
  `;
}

export const gaugesPanelStyles = css`
  .gauges .limits {
    padding-top: 0;
  }
`;
