/** The trade's rule beside the model's finding, claim by claim, under one plain sentence. */

import { html, nothing } from "lit";
import { customElement, state } from "lit/decorators.js";
import { endRedraw } from "../../../charts/kit/redraw.ts";
import { verdictBar, verdictTable } from "../../../charts/plots/verdictBar.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import type { Evidence, Finding, Test, Verdict } from "../../../study/change/verdicts.ts";
import { blownNote } from "../../../words/blown/blownNote.ts";
import { evidenceWords } from "../../../words/verdicts/evidence.ts";
import { FINDING } from "../../../words/verdicts/findings.ts";
import { noticeableLines, thresholdCheck } from "../../../words/verdicts/noticeable.ts";
import { type Claim, LEFT_OUT, MAIN_CLAIMS, RULE } from "../../../words/verdicts/rules.ts";
import { testName } from "../../../words/verdicts/tests.ts";
import { thirdVoice } from "../../../words/verdicts/thirdVoice.ts";
import { chartFileName, saveCsv } from "../../chart/chartFile.ts";
import { DrawnWidth } from "../../chart/drawnWidth.ts";
import { InSight } from "../../chart/inSight.ts";
import { lateStyles } from "../../chart/lateStyles.ts";
import { tableStyles, tableView } from "../../chart/tableView.ts";
import { zoom } from "../../chart/zoom.ts";
import { controls } from "../../shell/look/controls.ts";
import { icon } from "../../shell/look/icon.ts";
import { listenedIn } from "../../state/bench/listened.ts";
import { PageElement } from "../../state/page.ts";
import type { Answer } from "../../work/work.ts";
import { headline } from "./headline.ts";
import { verdictStyles } from "./verdictStyles.ts";

const SIGNS: Readonly<Record<Finding, string>> = {
  agrees: "check",
  disagrees: "xmark",
  mixed: "half",
  unknown: "question",
  "too-small": "about-equal",
  "not-for-a-model": "question",
  "not-possible": "minus",
  "same-gap": "equal",
};
const BAR_HEIGHT = 56;

/** A claim as it is shown: what lips and stream say, once that is known, over what the peaks say at once. */
interface Shown {
  readonly verdict: Verdict;
  /** null while it is being worked out. */
  readonly main: Evidence | null;
  readonly peaks: Evidence | null;
  /** What `main` stands on; null where the verdict itself says all. */
  readonly answer: Answer<unknown> | null;
}

@customElement("annulus-verdicts")
export class VerdictStrip extends PageElement {
  /** Words and numbers that change in every frame cannot be read, and 50 ms behind the hand they are seen to lag. */
  protected override readonly paceMs = 40;
  protected override readonly waitsForFrame = true;
  @state() private showsNumbers = false;
  @state() private showsOthers = false;
  /** What each bar was made from. */
  readonly #drawnFrom = new WeakMap<Element, readonly unknown[]>();
  readonly #inSight = new InSight(this);
  /** Of a column, which a bar is drawn to. */
  readonly #width = new DrawnWidth(this, ".claims", ({ target, contentRect }) => {
    const columns = getComputedStyle(target).gridTemplateColumns;
    return Number.parseFloat(columns) || contentRect.width;
  });

  static override styles = [controls, tableStyles, lateStyles, verdictStyles];

  override render() {
    const { explored, retuned } = this.page.model.parts;
    const { document, view } = this.page.store.parts;
    const { breathLitresPerMinute: breath } = document;
    const { value } = explored;
    const said =
      value &&
      headline({
        explored: value,
        retuned: retuned.value,
        felt: this.page.feel.parts.felt.stale ? null : this.page.feel.parts.felt.value,
        setup: document.setup,
        unit: view.unit,
      });
    return html`
      <div class=${explored.late ? "late" : ""}>
        <div class="headline" data-testid="headline">
          <p>${said?.change ?? "The first curve is being computed."}</p>
          ${said?.standIn ? html`<p data-testid="instruments-like-it">${said.standIn}</p>` : nothing}
          ${said?.finding ? html`<p class="answer">${icon(said.isNoticed ? "check" : "about-equal")}${said.finding}</p>` : nothing}
          ${said?.onLips.map((sentence) => html`<p class="holds">${sentence}</p>`)}
          ${said ? html`<p class="held">${said.heldAgainst}</p>` : nothing}
          ${breath === undefined ? nothing : html`<p class="held" data-testid="verdicts-blown">${blownNote(breath)}</p>`}
        </div>
        <div class="claims">${this.#shown(true).map((shown) => this.#claim(shown))}</div>
        ${this.#others()}
        ${value ? this.#numbers() : nothing}
      </div>
    `;
  }

  /** @param isMain those with a card of their own, or the others; all of them without */
  #shown(isMain?: boolean): Shown[] {
    const { felt, closed } = this.page.feel.parts;
    const answers = {
      slots: { answer: felt, main: felt.value?.slots ?? null },
      resistance: { answer: felt, main: felt.value?.resistance ?? null },
      noGap: { answer: closed, main: closed.value },
      tooWide: { answer: felt, main: felt.value?.tooWide ?? null },
      tooNarrow: { answer: felt, main: felt.value?.tooNarrow ?? null },
      attack: { answer: felt, main: felt.value?.attack ?? null },
    };
    const all = this.page.model.parts.explored.value?.verdicts ?? [];
    const asked = all.filter(({ claim }) => isMain === undefined || MAIN_CLAIMS.includes(claim) === isMain);
    return asked.map((verdict): Shown => {
      const { finding, basis, tests, claim } = verdict;
      const own = finding && { finding, basis, tests };
      const by = claim in answers ? answers[claim as keyof typeof answers] : null;
      if (!by || finding === "same-gap" || finding === "not-possible")
        return { verdict, main: own, peaks: null, answer: null };
      return { verdict, ...by, peaks: own };
    });
  }

  #claim({ verdict: { claim }, main, peaks, answer }: Shown) {
    const [rule, missing] = [RULE[claim], LEFT_OUT[claim]];
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const rest = [...(main?.tests.slice(1) ?? []), ...(peaks?.tests ?? [])];
    return html`
      <article data-testid="verdict-${claim}" aria-busy=${answer?.progress == null ? "false" : "true"}>
        <h2 class="unseen">${rule}</h2>
        <p class="rule">
          <span class="source">rule of thumb — common practice, no source</span>
          “${rule}”
        </p>
        ${answer ? this.#work(answer) : nothing}
        ${
          main &&
          html`
            <div class=${answer?.stale ? "late" : ""}>
              <p class="finding" data-finding=${main.finding}>${icon(SIGNS[main.finding])}<span><small>the model: </small>${FINDING[main.finding]}</span></p>
              <p class="model">${evidenceWords(main, instrument)}</p>
              ${bars(main.tests.slice(0, 1))}
            </div>
          `
        }
        ${this.#player(claim)}
        ${main && thresholdCheck(main) ? html`<p class="peaks" data-testid="threshold-check">${thresholdCheck(main)}</p>` : nothing}
        ${
          rest.length > 0 || missing
            ? html`
          <details>
            <summary>${rest.length > 0 ? "Other tests and limits" : "Limits"}</summary>
            ${peaks && html`<p class="peaks">By the peaks alone: ${FINDING[peaks.finding]}. ${evidenceWords(peaks, instrument)} ${thresholdCheck(peaks)}</p>`}
            ${bars(rest)}
            ${missing ? html`<p class="missing">${missing}</p>` : nothing}
          </details>
        `
            : nothing
        }
      </article>
    `;
  }

  /** The third voice: what was measured of this player, or how to. */
  #player(claim: Claim) {
    const { document, view } = this.page.store.parts;
    const instrument = instrumentOf(document.setup);
    const voice = thirdVoice(claim, listenedIn(document.notes, instrument), view.unit, instrument);
    return voice
      ? html`<p class="player" data-testid="player-${claim}"><small>this player: </small>${voice.measured ?? html`${voice.how} <a href="#listen">Listen</a>`}</p>`
      : nothing;
  }

  /** What else the trade says, a line each, and what is taken as just noticeable. */
  #others() {
    if (!this.page.model.parts.explored.value) return nothing;
    return html`
      <details
        data-testid="other-claims"
        @toggle=${({ currentTarget }: Event) => {
          this.showsOthers = (currentTarget as HTMLDetailsElement).open;
        }}
      >
        <summary>What else the trade says</summary>
        ${this.showsOthers ? this.#otherClaims() : nothing}
      </details>
    `;
  }

  #otherClaims() {
    const { setup } = this.page.store.parts.document;
    const instrument = instrumentOf(setup);
    return html`
      <dl class="others">
        ${this.#shown(false).map(({ verdict: { claim }, main, answer }) => {
          const said = main && evidenceWords(main, instrument);
          const check = main && thresholdCheck(main);
          return html`
            <dt>“${RULE[claim]}”</dt>
            <dd data-testid="verdict-${claim}" class=${answer?.stale ? "late" : ""}>
              ${main ? html`<b>${FINDING[main.finding]}.</b> ${said} ${check} ${LEFT_OUT[claim] ?? nothing}` : "being worked out"}
              ${this.#player(claim)}
            </dd>
          `;
        })}
      </dl>
      <h3>Just noticeable</h3>
      <ul data-testid="just-noticeable">${noticeableLines(setup.thresholds).map((line) => html`<li>${line}</li>`)}</ul>
      <p>Each can be changed under <a href="#edit">Edit</a>.</p>
    `;
  }

  /** Every bar's numbers, to read and to take along. */
  #numbers() {
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const table = this.showsNumbers ? verdictTable(this.#tested(), instrument) : null;
    return html`
      <details
        data-testid="verdict-numbers"
        @toggle=${({ currentTarget }: Event) => {
          this.showsNumbers = (currentTarget as HTMLDetailsElement).open;
        }}
      >
        <summary>The numbers behind the bars</summary>
        ${
          table &&
          html`
            ${tableView(table, "Verdicts")}
            <button type="button" @click=${() => saveCsv(table, chartFileName(this.page.store.parts.document.setup, "verdicts"))}>
              ${icon("save")}Save numbers as CSV
            </button>
          `
        }
      </details>
    `;
  }

  #tested(isMain?: boolean): { readonly rule: string; readonly tests: readonly Test[] }[] {
    return this.#shown(isMain).map(({ verdict: { claim }, main, peaks }) => ({
      rule: RULE[claim],
      tests: [...(main?.tests ?? []), ...(peaks?.tests ?? [])],
    }));
  }

  /** Where the felt part of a verdict stands while it is not there; the peaks do not wait for it. */
  #work({ value, stale, progress, refused, stopped }: Answer<unknown>) {
    if (refused) return html`<p class="working">${icon("warning")}<span>${refused}</span></p>`;
    if (value !== null && !stale) return nothing;
    if (stopped) return html`<p class="working">stopped</p>`;
    return html`
      <p class="working" data-testid="working">
        being worked out ${progress === null ? nothing : html`<progress max="1" .value=${progress} aria-label="Being worked out"></progress>`}
      </p>
    `;
  }

  protected override updated(): void {
    const { unit } = this.page.store.parts.view;
    const tests = this.#tested(true).flatMap((claim) => claim.tests);
    const instrument = instrumentOf(this.page.store.parts.document.setup);
    const width = Math.floor(this.#width.px / zoom());
    if (width === 0) return;
    const draw = (bar: Element, test: Test) => {
      const inputs = [unit, instrument, width, test];
      if (this.#drawnFrom.get(bar)?.every((input, i) => input === inputs[i])) return;
      this.#drawnFrom.set(bar, inputs);
      const over = (bar.firstElementChild as SVGSVGElement | null) ?? undefined;
      const { svg } = verdictBar(test, { width, height: BAR_HEIGHT, unit, instrument, over });
      if (over) endRedraw(over);
      else bar.append(svg);
    };
    const unseen: (() => void)[] = [];
    this.renderRoot.querySelectorAll(".bar").forEach((bar, i) => {
      if (this.#inSight.has(bar) || !bar.firstElementChild) draw(bar, tests[i]);
      else unseen.push(() => draw(bar, tests[i]));
    });
    this.#inSight.atRest(() => {
      for (const one of unseen) one();
    });
  }
}

const bars = (tests: readonly Test[]) =>
  tests.map((test) => html`<p class="test">${testName(test)}</p><div class="bar"></div>`);
