/** How far the bell of plane waves is to be trusted: off in pitch, and right in what a gap does. Worked out when asked for. */

import { css, html, nothing, type PropertyValues } from "lit";
import { customElement, property } from "lit/decorators.js";
import { type DeviationData, deviationFigure } from "../../../charts/plots/compare/deviationChart.ts";
import { nearestGapMm } from "../../../setup/gapLimits.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import type { BellTrust } from "../../../study/compare/bellTrust.ts";
import { GAP_KIND } from "../../../words/gapKinds.ts";
import { noteText } from "../../../words/instruments.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import type { Candidate } from "../../state/bench/candidates.ts";
import { PageElement } from "../../state/page.ts";
import { openCompareWorker } from "../../work/openWorkers.ts";
import { Work } from "../../work/work.ts";
import { inOwnWorker } from "../../work/workerClient.ts";
import "../../chart/chartElement.ts";
import { warning } from "../../shell/look/notice.ts";
import { workLine, workStyles } from "../../shell/look/workLine.ts";

/** The change of gap the trade talks about. */
const TENTH_MM = 2.54;

const trustFigure = deviationFigure({
  name: "bell-trust",
  label: "How far plane waves in the bell are off",
  about:
    "Plane waves less curved fronts: of each resonance, and of what the gap does to it. Curved fronts are within a cent of finite " +
    "elements of the demo's bell at resonances 2 to 10.",
  caption: () =>
    "Dashed blue: pitch of the resonance. Orange: what the gap does to it. Within the hatched band the difference is too small to notice.",
});

@customElement("annulus-bell-trust")
export class BellTrustPanel extends PageElement {
  /** A step is how many of the two models are done. */
  readonly #work = new Work<Candidate, BellTrust, number>({
    ask: ({ setup, gapMm }, tell, signal) => {
      const wider = nearestGapMm(setup, gapMm + TENTH_MM);
      const toGapMm = wider > gapMm ? wider : nearestGapMm(setup, gapMm - TENTH_MM);
      return inOwnWorker({ connect: openCompareWorker }, (client) =>
        client.run(
          "bellTrust",
          setup,
          { fromGapMm: gapMm, toGapMm },
          (done, of) => tell(done / of, done),
          signal,
        ),
      );
    },
  });
  @property({ attribute: false }) from!: Candidate;
  #chart: { readonly of: BellTrust; readonly felt: number; readonly data: DeviationData } | null = null;

  static override styles = [
    controls,
    sheetStyles,
    workStyles,
    css`
      p {
        max-width: 90ch;
        text-wrap: pretty;
      }
      .both {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        gap: 1rem 2rem;
        align-items: start;
      }
      @container sheet (max-width: 1099px) {
        .both {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#work.stop();
  }

  /** What was worked out is of one instrument at one gap. */
  protected override willUpdate(changed: PropertyValues): void {
    const before = changed.get("from") as Candidate | undefined;
    if (!before || (before.setup === this.from.setup && before.gapMm === this.from.gapMm)) return;
    this.#work.clear();
  }

  /** With nothing worked out there is nothing to print. */
  protected override updated(): void {
    this.toggleAttribute("blank", this.#work.value.value === null);
  }

  override render() {
    const { number, name, gapIs } = this.from;
    const { value: trust, progress, step: done, refused } = this.#work.value;
    return html`
      <div class="stack">
        <p>
          Plane waves follow no curved front, and a flaring bell curves them. Here ${number} ${name}, highlighted, is
          worked out with both, at its gap (${GAP_KIND[gapIs]}) and a tenth of an inch away.
        </p>
        <div class="actions work controls" role="status">
          ${
            progress !== null
              ? workLine({
                  doing: done ? "Curved fronts" : "Plane waves",
                  label: "Working out both bells",
                  share: ((done ?? 0) + 0.5) / 2,
                  stop: () => this.#work.stop(),
                })
              : trust === null
                ? html`<button type="button" data-testid="bell-work" @click=${() => void this.#work.start(this.from)}>${icon("play")}Work it out</button>`
                : nothing
          }
        </div>
        ${refused ? warning(refused, { role: "alert", testId: "bell-refused" }) : nothing}
        ${trust ? this.#result(trust) : nothing}
      </div>
    `;
  }

  #result(trust: BellTrust) {
    const { unit } = this.page.store.parts.view;
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const { fromGapMm, toGapMm, modes } = trust;
    const most = modes.reduce((a, b) => (Math.abs(b.cents) > Math.abs(a.cents) ? b : a));
    const apart = Math.max(
      ...modes.map(({ planeChange, curvedChange }) => Math.abs(planeChange - curvedChange)),
    );
    return html`
      <p aria-live="polite" data-testid="bell-found">
        Plane waves are off by up to <b>${signed(most.cents, 1)} cents</b>, at ${noteText(most.n, instrument)}. In what the gap does, from
        ${bothUnits(fromGapMm, unit)} to ${bothUnits(toGapMm, unit)}, the two differ by <b>${apart.toFixed(2)} cents</b> at most:
        ${
          apart < this.page.store.parts.document.setup.thresholds.cents
            ? "the bell’s error is the same at both gaps and drops out."
            : "here the bell’s error does not drop out; choose curved fronts in the form."
        }
      </p>
      <div class="both">
      <annulus-chart .figure=${trustFigure} .data=${this.#data(trust)}></annulus-chart>
      <div class="scroll" tabindex="0" role="region" aria-label="Both bells, note by note">
        <table data-testid="bell-table">
          <thead>
            <tr>
              <th scope="col">note</th>
              ${["plane, Hz", "curved, Hz", "off by, cents", "gap: plane, cents", "gap: curved, cents", "off by, cents"].map((head) => html`<th scope="col" class="number">${head}</th>`)}
            </tr>
          </thead>
          <tbody>
            ${modes.map(
              ({ n, planeHz, curvedHz, cents, planeChange, curvedChange }) => html`
                <tr>
                  <th scope="row">${n}</th>
                  <td class="number">${planeHz.toFixed(1)}</td>
                  <td class="number">${curvedHz.toFixed(1)}</td>
                  <td class="number">${signed(cents, 1)}</td>
                  <td class="number">${signed(planeChange, 2)}</td>
                  <td class="number">${signed(curvedChange, 2)}</td>
                  <td class="number">${signed(planeChange - curvedChange, 2)}</td>
                </tr>
              `,
            )}
          </tbody>
        </table>
      </div>
      </div>
    `;
  }

  #data(trust: BellTrust): DeviationData {
    const felt = this.page.store.parts.document.setup.thresholds.cents;
    if (this.#chart?.of !== trust || this.#chart.felt !== felt)
      this.#chart = {
        of: trust,
        felt,
        data: {
          title: "Plane waves less curved fronts",
          unit: "cents",
          digits: 1,
          feltFrom: felt,
          series: [
            {
              name: "pitch of the resonance",
              kind: "before",
              values: trust.modes.map(({ n, cents }) => ({ n, value: cents })),
            },
            {
              name: "what the gap does",
              kind: "after",
              values: trust.modes.map(({ n, planeChange, curvedChange }) => ({
                n,
                value: planeChange - curvedChange,
              })),
            },
          ],
        },
      };
    return this.#chart.data;
  }
}
