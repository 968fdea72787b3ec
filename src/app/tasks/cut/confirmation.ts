/** What a person has to say in so many words: before anything that cannot be undone, and where something contradicts the gap. */
import { html, type TemplateResult } from "lit";

export const confirmation = (
  text: string,
  isConfirmed: boolean,
  confirm: (isConfirmed: boolean) => void,
): TemplateResult => html`
  <label class="notice wrong confirm">
    <input
      type="checkbox"
      data-testid="confirm"
      .checked=${isConfirmed}
      @change=${({ target }: Event) => confirm((target as HTMLInputElement).checked)}
    />
    <span>
      <b>I have read and confirm:</b> ${text}<br />
      <span class="muted">The stages and the card come with it; another planned or measured gap, way or unit must be confirmed again, and so must a plan you left.</span>
    </span>
  </label>
`;

/** The tick that a choice waits for where something contradicts the gap. */
export const acknowledgement = (
  isAcknowledged: boolean,
  acknowledge: (isAcknowledged: boolean) => void,
): TemplateResult => html`
  <label class="notice wrong confirm">
    <input
      type="checkbox"
      data-testid="acknowledge"
      .checked=${isAcknowledged}
      @change=${({ target }: Event) => acknowledge((target as HTMLInputElement).checked)}
    />
    <span>
      <b>I know of this contradiction</b> and go on with the gap as it is given.<br />
      <span class="muted">A way can be chosen after that. The work card and the report carry the doubt; if it changes, you are asked again.</span>
    </span>
  </label>
`;
