/** What a newcomer meets: the question, the answer for the demo in one breath, and three ways in. */
import { css, html } from "lit";
import { customElement } from "lit/decorators.js";
import { WELCOME, welcomeAnswer } from "../../../words/tasks.ts";
import { controls } from "../../shell/look/controls.ts";
import { writeHash } from "../../shell/route.ts";
import { PageElement } from "../../state/page.ts";
import { headline } from "./headline.ts";

const welcomeStyles = css`
  .welcome {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    justify-content: space-between;
    gap: 0.5rem 2rem;
    padding: 0.75rem var(--edge);
    border-bottom: 1px solid var(--hairline);
  }
  .welcome > div:first-child {
    flex: 1 1 24rem;
  }
  .welcome h2 {
    font-size: var(--type-28);
    line-height: 1.15;
    text-wrap: balance;
  }
  /* room for the answer before it is there */
  .welcome p {
    min-height: 2lh;
    max-width: 75ch;
    text-wrap: pretty;
  }
  .welcome .ways {
    display: flex;
    flex-wrap: wrap;
    gap: 0.5rem;
  }
  .welcome .ways > * {
    display: inline-flex;
    align-items: center;
    justify-content: center;
    min-height: var(--touch);
    padding: 0 0.9rem;
    border: 1.5px solid var(--ink);
    border-radius: 3px;
    color: inherit;
    font-size: var(--type-16);
    font-weight: 600;
    text-decoration: none;
  }
  .welcome .ways > :first-child {
    background: var(--ink);
    color: var(--paper);
  }
  @media (max-width: 699px) {
    .welcome h2 {
      font-size: var(--type-20);
    }
    .welcome p {
      min-height: 3lh;
    }
    .welcome .ways > * {
      flex: 1 1 auto;
      padding: 0 0.5rem;
      font-size: var(--type-14);
    }
  }
  @media (forced-colors: active) {
    .welcome .ways > :first-child {
      background: Canvas;
      color: CanvasText;
    }
  }
  @media print {
    .welcome {
      display: none;
    }
  }
`;

/** Says `try-demo` where the demo is to be gone on with. */
@customElement("annulus-welcome")
export class Welcome extends PageElement {
  protected override readonly waitsForFrame = true;
  /** In step with the verdicts' words: a frame of its own for this one sentence kept theirs waiting. */
  protected override readonly paceMs = 40;

  static override styles = [controls, welcomeStyles];

  override render() {
    const said = this.#said();
    return html`
      <section class="welcome" aria-labelledby="question" data-testid="welcome">
        <div>
          <h2 id="question">${WELCOME.question}</h2>
          <p data-testid="welcome-answer">${said ? welcomeAnswer(said.change, said.finding) : WELCOME.computing}</p>
        </div>
        <div class="ways controls">
          <a href=${writeHash("measure")} data-testid="welcome-measure">${WELCOME.measure}</a>
          <button type="button" data-testid="welcome-demo" @click=${this.#tryDemo}>${WELCOME.demo}</button>
          <a href=${writeHash("jobs")} data-testid="welcome-job">${WELCOME.job}</a>
        </div>
      </section>
    `;
  }

  /** The headline of what is shown; null while the first curve is being computed. */
  #said() {
    const { explored, retuned } = this.page.model.parts;
    const { document, view } = this.page.store.parts;
    const { value } = explored;
    if (!value) return null;
    const { setup } = document;
    return headline({ explored: value, retuned: retuned.value, felt: null, setup, unit: view.unit });
  }

  readonly #tryDemo = (): void => {
    this.dispatchEvent(new Event("try-demo"));
  };
}
