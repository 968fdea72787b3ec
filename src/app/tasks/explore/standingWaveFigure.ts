/** Where on one resonance's standing wave the gap sits. */
import { html, type TemplateResult } from "lit";
import { proportional } from "../../../charts/kit/figure.ts";
import { standingWaveChart, standingWaveTable } from "../../../charts/plots/standingWaveChart.ts";
import type { Pictured } from "../../../study/instrument/exploration.ts";
import type { PageFigure } from "../../chart/pageFigure.ts";
import type { Store } from "../../state/store.ts";

const RESONANCES = Array.from({ length: 12 }, (_, i) => i + 1);

const CAPTION = "Why one note hears the gap and another does not: where on its wave the gap sits.";

const figure: PageFigure<Pictured["wave"]> = {
  name: "standing-wave",
  label: "Standing wave of one resonance along the bore",
  about:
    "Sound pressure and flow along the bore while one resonance sounds, over the bore's outline. Where pressure is large at " +
    "the gap, the gap works by its volume; where flow is large, by its narrow air's mass. That is why one note hears the gap " +
    "and another does not.",
  caption: () => CAPTION,
  height: proportional(0.45, 250, 380),
  answer: ({ model }) => model.parts.explored,
  read: ({ model }) => model.parts.explored.step?.wave ?? null,
  draw: standingWaveChart,
  table: standingWaveTable,
};

const withCurvedFronts: typeof figure = {
  ...figure,
  caption: () =>
    `${CAPTION} In the bell’s flare the plane wave goes on that reaches it; the fronts there are curved.`,
};

export const standingWaveFigure = ({ parts }: Store): typeof figure =>
  parts.document.setup.model.bell === "plane" ? figure : withCurvedFronts;

export function resonanceChoice(store: Store): TemplateResult {
  const { resonance } = store.parts.view;
  const choose = (event: Event) =>
    store.setView({ resonance: Number((event.target as HTMLSelectElement).value) });
  return html`
    <label slot="switches">
      resonance
      <select data-testid="resonance" .value=${`${resonance}`} @change=${choose}>
        ${RESONANCES.map((n) => html`<option value=${n} ?selected=${n === resonance}>${n}</option>`)}
      </select>
    </label>
  `;
}
