/** One line of long work: what is being worked out, how far it is, and the way to stop it; or the way on where it was stopped. */
import { css, html, nothing, type TemplateResult } from "lit";
import { icon } from "./icon.ts";

export interface WorkLine {
  /** What is being done, as it changes. */
  readonly doing: string;
  /** The same as a whole; `doing`, unless it changes. */
  readonly label?: string;
  /** Share that is done; null where nobody knows. */
  readonly share: number | null;
  readonly stop: () => void;
  /** On the button: `Stop`. */
  readonly stopWords?: string;
  readonly stopId?: string;
}

export const workLine = ({
  doing,
  label = doing,
  share,
  stop,
  stopWords = "Stop",
  stopId,
}: WorkLine): TemplateResult => html`
  <span>${doing}</span>
  ${share === null ? html`<progress aria-label=${label}></progress>` : html`<progress max="1" .value=${share} aria-label=${label}></progress>`}
  <button type="button" data-testid=${stopId ?? nothing} @click=${() => stop()}>${icon("stop")}${stopWords}</button>
`;

/** @param what has been left undone */
export const stoppedLine = (goOn: () => void, what = "Stopped."): TemplateResult =>
  html`<span>${what}</span><button type="button" @click=${() => goOn()}>${icon("play")}Go on</button>`;

/** The line keeps its height while nothing is worked out. */
export const workStyles = css`
  .work {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.75rem;
    min-height: var(--touch);
    font-size: var(--type-14);
  }
`;
