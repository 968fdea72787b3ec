import { html, type TemplateResult } from "lit";

export interface Segment<T> {
  readonly value: T;
  readonly text: string;
  readonly label?: string;
}

/** A switch between few choices, all of them in sight. */
export const segments = <T>(
  name: string,
  choices: readonly Segment<T>[],
  chosen: T,
  choose: (value: T) => void,
): TemplateResult => html`
  <div class="segments" role="group" aria-label=${name}>
    ${choices.map(
      ({ value, text, label }) => html`
        <button
          type="button"
          aria-pressed=${value === chosen ? "true" : "false"}
          aria-label=${label ?? text}
          @click=${() => choose(value)}
        >
          ${text}
        </button>
      `,
    )}
  </div>
`;
