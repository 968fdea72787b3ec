/** How hard it blows at two gaps: the steady stream part by part, and the peaks from soft to loud. */

import { css, html, nothing } from "lit";
import { customElement } from "lit/decorators.js";
import { flowFigure, sharePercent } from "../../../charts/plots/flowChart.ts";
import type { ResistanceChangeLike } from "../../../study/blown/resistanceLike.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { NOT_KNOWN } from "../../../words/blown/notKnown.ts";
import { throatEdgeWords } from "../../../words/blown/throatEdge.ts";
import { bothUnits, signed } from "../../../words/numbers.ts";
import { RESISTANCE_PHRASE } from "../../../words/verdicts/findings.ts";
import { lateStyles } from "../../chart/lateStyles.ts";
import { readField } from "../../form/field.ts";
import { controls } from "../../shell/look/controls.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { FLOW, FLOW_LIMITS } from "../../state/notes/play.ts";
import { PageElement } from "../../state/page.ts";
import { feelStyles } from "./feelStyles.ts";
import { feelWork } from "./feelWork.ts";
import "../../chart/chartElement.ts";
import { levelFigure } from "../../../charts/plots/levelChart.ts";

@customElement("annulus-resistance")
export class ResistanceSection extends PageElement {
  static override styles = [
    controls,
    sheetStyles,
    feelStyles,
    lateStyles,
    css`
      .flow {
        max-width: 24rem;
        font-size: var(--type-14);
      }
      output {
        font-weight: 650;
      }
      ul {
        margin: 0;
        padding-left: 1.2rem;
      }
    `,
  ];

  override render() {
    const { document, view } = this.page.store.parts;
    const { stream, levels } = this.page.feel.parts;
    const { value } = stream;
    const inLevels = levels.value && {
      reference: levels.value[0],
      chosen: levels.value.at(-1)!,
      highlight: view.resonance,
    };
    const flow = readField(FLOW, document.notes.play.flow, view.unit).value ?? FLOW_LIMITS.usual;
    return html`
      <section aria-labelledby="resistance-title">
        <h2 id="resistance-title">How hard it blows</h2>
        <p class="words">
          Backpressure here is the flow's: the pressure that drives a steady flow of air from the rim to the room. What the lips ask for,
          the starting pressure of each note, is beside the slots.
        </p>
        <label class="flow">
          Flow <output>${flow} L/min</output>
          <input
            type="range"
            data-testid="flow"
            min=${FLOW_LIMITS.least}
            max=${FLOW_LIMITS.most}
            step="1"
            .value=${`${flow}`}
            aria-valuetext="${flow} litres per minute"
            @input=${(event: Event) => this.#write(event, false)}
            @change=${(event: Event) => this.#write(event, true)}
          />
        </label>
        <p class="words ${stream.late ? "late" : ""}" aria-live="polite" data-testid="stream-finding">${value ? inWords(value, view.unit) : nothing}</p>
        ${feelWork(this.page.feel, ["stream", "levels"])}
        <div class="figures">
          <annulus-chart .figure=${flowFigure} .data=${value} .answer=${stream}></annulus-chart>
          <annulus-chart .figure=${levelFigure} .data=${inLevels} .answer=${levels}></annulus-chart>
        </div>
        <details>
          <summary>What a steady one-dimensional estimate cannot know</summary>
          <ul class="small">${NOT_KNOWN.map((line) => html`<li>${line}</li>`)}</ul>
        </details>
      </section>
    `;
  }

  #write(event: Event, commit: boolean): void {
    const flow = (event.target as HTMLInputElement).value;
    const { play } = this.page.store.parts.document.notes;
    this.page.store.setNotes("play", { ...play, flow }, { commit });
  }
}

/** The gap's share, the change with its bounds, and the bore that would do the same. */
function inWords(change: ResistanceChangeLike, unit: LengthUnit): string {
  const { chosen, changePercent, expandedPercent, rangePercent, thresholdPercent, finding } = change;
  const { share } = chosen.gap;
  const gap =
    `The gap takes ${sharePercent(share.estimate)} of the whole pressure drop of ${chosen.dropPa.estimate.toFixed(0)} Pa ` +
    `(${sharePercent(share.lower)} to ${sharePercent(share.upper)}); the leadpipe's edge ${chosen.gap.edge}. ${throatEdgeWords(chosen)}`.trimEnd();
  if (finding === "same-gap") return `${gap} What if is at the gap compared with.`;
  const bore = change.equivalentBoreMm.estimate;
  const asBore =
    bore === null
      ? "No change of the leadpipe's bore does as much."
      : `A leadpipe ${bothUnits(Math.abs(bore), unit)} ${bore > 0 ? "wider" : "narrower"} all along would change it as much.`;
  return (
    `${gap} Compared with the other gap the drop changes by ${signed(changePercent.estimate, 2)} %, with the bounds${expandedPercent === null ? "" : ", on instruments like it,"} anything from ` +
    `${signed(rangePercent[0], 2)} to ${signed(rangePercent[1], 2)} %: ${RESISTANCE_PHRASE[finding]} (just noticeable: ${thresholdPercent} %). ${asBore}`
  );
}
