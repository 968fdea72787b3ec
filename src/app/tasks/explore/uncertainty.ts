/** How well the changes are known, and which dimension that hangs on: by first order at once, by drawing instruments on demand. */

import { css, html, nothing, type TemplateResult } from "lit";
import { customElement, state } from "lit/decorators.js";
import { dimensionAt } from "../../../setup/dimension/dimension.ts";
import { isAnyAssumed } from "../../../setup/dimension/provenance.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { isSameGap, type Setup } from "../../../setup/setup.ts";
import type { ChangedMode } from "../../../study/change/modeChanges.ts";
import { isPlayed } from "../../../study/change/verdicts.ts";
import type { Explored } from "../../../study/instrument/exploration.ts";
import type {
  ChangeUncertainty,
  ModeUncertainty,
  Uncertain,
} from "../../../study/uncertainty/changeUncertainty.ts";
import type { Drawn, MonteCarlo } from "../../../study/uncertainty/monteCarlo.ts";
import { formatLength } from "../../../units/formatLength.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { noteText } from "../../../words/instruments.ts";
import { signed } from "../../../words/numbers.ts";
import { lateStyles } from "../../chart/lateStyles.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { segments } from "../../shell/look/segments.ts";
import { sheetStyles } from "../../shell/look/sheetStyles.ts";
import { workLine } from "../../shell/look/workLine.ts";
import { PageElement } from "../../state/page.ts";
import { draws, isAbout, TRIALS, type Trials } from "../../work/draws.ts";

const QUANTITIES = [
  { key: "shiftCents", title: "shift", unit: "cents", digits: 2, of: (mode: ChangedMode) => mode.shiftCents },
  { key: "heightDb", title: "peak height", unit: "dB", digits: 3, of: (mode: ChangedMode) => mode.heightDb },
  {
    key: "spacingCents",
    title: "spacing to the next",
    unit: "cents",
    digits: 2,
    of: (mode: ChangedMode) => mode.spacingChangeCents,
  },
] as const;
type Quantity = (typeof QUANTITIES)[number];

@customElement("annulus-uncertainty")
export class UncertaintyPanel extends PageElement {
  protected override readonly paceMs = 100;
  protected override readonly waitsForFrame = true;
  readonly #draws = draws();
  @state() private trials: Trials = 1000;
  @state() private isOpen = false;

  static override styles = [
    controls,
    sheetStyles,
    lateStyles,
    css`
      details {
        border-top: 1.5px solid var(--ink);
        padding-top: 0.75rem;
      }
      summary {
        font-size: var(--type-20);
        font-weight: 650;
        cursor: pointer;
      }
      .body {
        display: grid;
        gap: 0.75rem;
        padding-top: 0.5rem;
        font-size: var(--type-14);
      }
      .body p {
        max-width: 60rem;
      }
      .actions {
        align-items: center;
      }
      td,
      th {
        white-space: nowrap;
      }
      small {
        display: block;
        font-size: var(--type-12);
        color: var(--muted);
      }
      a {
        color: inherit;
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#draws.stop();
  }

  override render() {
    return html`
      <details
        data-testid="uncertainty"
        @toggle=${({ currentTarget }: Event) => {
          this.isOpen = (currentTarget as HTMLDetailsElement).open;
        }}
      >
        <summary>How sure is this?</summary>
        ${this.isOpen ? this.#body() : nothing}
      </details>
    `;
  }

  #body(): TemplateResult {
    const { document, view } = this.page.store.parts;
    const explored = this.page.model.parts.explored.value;
    const isSame = isSameGap(document.gapMm, document.referenceGapMm);
    return html`
      <div class="body">
        <p>${takenAs(document.setup, view.unit)} <a href="#edit">Say how well each dimension is known</a></p>
        ${isSame ? html`<p>What if is at the gap compared with: there is no change to be sure of.</p>` : this.#answer(explored)}
      </div>
    `;
  }

  #answer(explored: Explored | null): TemplateResult {
    const uncertainty = explored?.uncertainty;
    if (!explored || !uncertainty) return html`<p role="status">Being worked out.</p>`;
    if (uncertainty.sources.length === 0)
      return html`<p>With every dimension taken as exact there is nothing to work out.</p>`;
    return html`
      <p>
        ± is the expanded uncertainty, 95 %, by first order: every dimension's slope times its uncertainty (JCGM 100:2008).
        What both gaps share mostly drops out of a change; the insertion is set again at each. Under each figure stands what
        most of its uncertainty comes from.
      </p>
      ${this.#drawing()}
      <div class="scroll">${this.#table(explored, uncertainty)}</div>
    `;
  }

  #drawing(): TemplateResult {
    const { progress, refused } = this.#draws.value;
    if (progress !== null)
      return html`
        <div class="actions" role="status">
          ${workLine({
            doing: `Drawing ${this.trials} instruments`,
            label: "Running random trials",
            share: progress,
            stop: () => this.#draws.stop(),
            stopId: "stop-drawing",
          })}
        </div>
      `;
    const answer = this.#drawn();
    const drawn = answer
      ? html`<span data-testid="drawn" role="status">
            ${answer.drawn} random trials run${answer.leftOut > 0 ? `; ${answer.leftOut} more were impossible (a gap below 0, say) and were left out` : ""}.
            ${this.#agreement()}
          </span>`
      : nothing;
    return html`
      <div class="actions">
        <button type="button" data-testid="draw" @click=${this.#draw}>
          ${icon("play")}Check by random sampling
        </button>
        ${segments<Trials>(
          "How many random trials",
          TRIALS.map((value) => ({ value, text: `${value}` })),
          this.trials,
          (trials) => {
            this.trials = trials;
          },
        )}
        ${drawn}${refused ? html`<span role="alert">${icon("warning")} ${refused}</span>` : nothing}
      </div>
    `;
  }

  readonly #draw = (): void => {
    const { setup, gapMm, referenceGapMm } = this.page.store.state.document;
    void this.#draws.start({ setup, gapMm, referenceGapMm, trials: this.trials });
  };

  /** What was drawn, while it is about what is shown. */
  #drawn(): MonteCarlo | null {
    const { value, of } = this.#draws.value;
    return of && isAbout(of, this.page.store.parts.document) ? value : null;
  }

  #agreement(): string {
    const uncertainty = this.page.model.parts.explored.value?.uncertainty;
    const drawn = this.#drawn()?.modes ?? null;
    if (!uncertainty || !drawn) return "";
    const apart = QUANTITIES.flatMap(({ key }) =>
      uncertainty.modes.flatMap((mode, i) => disagreement(mode[key], drawn[i]?.[key] ?? null)),
    );
    const worst = Math.max(0, ...apart);
    return worst < 1
      ? "They scatter as the first-order figures say."
      : "They scatter otherwise than the first-order figures say: go by these, since the model is not linear over these uncertainties.";
  }

  #table(explored: Explored, uncertainty: ChangeUncertainty): TemplateResult {
    const drawn = this.#drawn()?.modes ?? null;
    const { late } = this.page.model.parts.explored;
    const played = uncertainty.modes.filter(isPlayed);
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    return html`
      <table class=${late ? "late" : ""}>
        <thead>
          <tr>
            <th scope="col">note</th>
            ${QUANTITIES.map(
              ({ title, unit }) => html`
                <th scope="col" class="number">${title}, ${unit}</th>
                ${drawn ? html`<th scope="col" class="number">drawn</th>` : nothing}
              `,
            )}
          </tr>
        </thead>
        <tbody>
          ${played.map(
            (mode) => html`
              <tr>
                <th scope="row">${noteText(mode.n, instrument)}</th>
                ${QUANTITIES.map((quantity) => {
                  const uncertain = mode[quantity.key];
                  const changed = explored.changes.find(({ n }) => n === mode.n);
                  const change = changed ? quantity.of(changed) : null;
                  return html`
                    <td class="number">
                      ${plusMinus(change, uncertain?.expanded, quantity)}
                      <small>${mostlyFrom(uncertain, uncertainty)}</small>
                    </td>
                    ${drawn ? html`<td class="number">${drawnText(drawn.find(({ n }) => n === mode.n)?.[quantity.key], quantity)}</td>` : nothing}
                  `;
                })}
              </tr>
            `,
          )}
        </tbody>
      </table>
    `;
  }
}

/** The dimensions that are not taken as exact, in one sentence. */
function takenAs(setup: Setup, unit: LengthUnit): string {
  const known = Object.entries(setup.uncertainties).flatMap(([path, { standard }]) => {
    const dimension = dimensionAt(setup, path);
    if (!dimension) return [];
    const size =
      dimension.unit === "mm"
        ? formatLength(standard, unit, 3)
        : `${standard}${dimension.unit && ` ${dimension.unit}`}`;
    return [`${dimension.name} ${size}`];
  });
  const others = isAnyAssumed(setup)
    ? "what is assumed differs as instruments of its kind usually do (this tool’s own choice), all else is taken as exact."
    : "all else is taken as exact.";
  if (known.length > 0) return `Standard uncertainties: ${known.join(", ")}; ${others}`;
  return isAnyAssumed(setup)
    ? `No standard uncertainties are stated; ${others}`
    : "Every dimension is taken as exact.";
}

const plusMinus = (change: number | null, expanded: number | undefined, { digits }: Quantity): string =>
  change === null || expanded === undefined ? "–" : `${signed(change, digits)} ± ${expanded.toFixed(digits)}`;

/** Mean and half the interval that holds 95 % of the draws. */
const drawnText = (drawn: Drawn | null | undefined, { digits }: Quantity): string =>
  drawn
    ? `${signed(drawn.mean, digits)} ± ${((drawn.interval[1] - drawn.interval[0]) / 2).toFixed(digits)}`
    : "–";

function mostlyFrom(uncertain: ModeUncertainty[Quantity["key"]], { sources }: ChangeUncertainty): string {
  if (!uncertain || uncertain.standard === 0) return "";
  const share = Math.max(...uncertain.shares);
  return `${sources[uncertain.shares.indexOf(share)].name} ${Math.round(100 * share)} %`;
}

/** How far u by first order and by random trials are apart, in units of what so few draws can tell: four times 1/√(2(N−1)). */
function disagreement(uncertain: Uncertain | null, drawn: Drawn | null): number[] {
  if (!uncertain || !drawn || uncertain.standard === 0) return [];
  const tolerance = 4 / Math.sqrt(2 * (drawn.count - 1));
  return [Math.abs(drawn.standard / uncertain.standard - 1) / tolerance];
}
