/** How to measure, drawn step by step with the open setup's own parts. */

import { css, html } from "lit";
import { customElement } from "lit/decorators.js";
import { MEASURE_STEPS, type MeasureStep, measureGuide } from "../../../charts/drawings/measureGuide.ts";
import type { Frame } from "../../../charts/kit/drawing.ts";
import type { Setup } from "../../../setup/setup.ts";
import { GuideElement } from "../../chart/guideElement.ts";

const WORDS: Readonly<
  Record<MeasureStep, { readonly title: string; readonly text: string; readonly caution: string }>
> = {
  depth: {
    title: "Measure the receiver's depth",
    text:
      "Rest the gauge flat on the receiver's face and let its rod down along the wall until it stands on the edge of the " +
      "leadpipe. Lift it off and read again each time.",
    caution:
      "Keep the rod parallel to the bore's axis, and rest on the face itself, not in its chamfer. A steel rod can scratch the leadpipe's edge.",
  },
  mark: {
    title: "Mark the seated shank",
    text: "Put the mouthpiece in with your usual light twist. Mark the shank right at the receiver's face, with a pencil or the edge of a tape.",
    caution: "Clean shank and receiver first; use the same twist each time.",
  },
  insertion: {
    title: "Measure the insertion",
    text: "Take the mouthpiece out and measure from the shank's end to the mark. For each repeat wipe the mark off and seat the mouthpiece again.",
    caution: "Measure along the axis, to the edge of the mark that lay at the face.",
  },
  shoulder: {
    title: "Leave the shoulder gap alone",
    text:
      "What shows outside depends on where the shoulder was turned. The lower shank is the upper one with its end cut off: " +
      "outside nothing has changed, inside the gap is wider.",
    caution: "No shoulder gap goes into any figure here.",
  },
};

@customElement("annulus-measure-guide")
export class MeasureGuide extends GuideElement {
  protected override readonly heightPx = 300;
  protected override readonly pictures = MEASURE_STEPS.map(
    (step) => (setup: Setup, frame: Frame) => measureGuide(step, setup, frame),
  );

  static override styles = [
    GuideElement.styles,
    css`
      h2 {
        font-size: var(--type-20);
        font-weight: 650;
      }
      ol {
        display: grid;
        grid-template-columns: repeat(4, minmax(0, 1fr));
        gap: 1rem 1.75rem;
        margin: 0.5rem 0;
        padding: 0;
        list-style: none;
      }
      h3 {
        display: flex;
        align-items: center;
        gap: 0.5rem;
        font-size: var(--type-16);
        font-weight: 650;
        line-height: 1.2;
      }
      h3 b {
        flex: none;
        display: grid;
        place-items: center;
        width: 1.6rem;
        height: 1.6rem;
        border: 1.5px solid var(--ink);
        border-radius: 50%;
        font-size: var(--type-14);
      }
      .picture {
        padding-bottom: 0.25rem;
      }
      li p {
        font-size: var(--type-14);
        max-width: 60ch;
        text-wrap: pretty;
      }
      li p + p {
        padding-top: 0.25rem;
        color: var(--muted);
      }
      @container sheet (max-width: 1199px) {
        ol {
          grid-template-columns: repeat(2, minmax(0, 1fr));
        }
      }
      @container sheet (max-width: 599px) {
        ol {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  override render() {
    return html`
      <h2>How to measure</h2>
      <ol>
        ${MEASURE_STEPS.map((step, i) => {
          const { title, text, caution } = WORDS[step];
          return html`
            <li data-testid="guide-${step}">
              <h3><b>${i + 1}</b>${title}</h3>
              <div class="picture"></div>
              <p>${text}</p>
              <p>${caution}</p>
            </li>
          `;
        })}
      </ol>
      <p class="source">Drawn with the open setup's dimensions; walls, shoulder and tools are not measured. Twist, mark and cautions: common practice, no source.</p>
    `;
  }
}
