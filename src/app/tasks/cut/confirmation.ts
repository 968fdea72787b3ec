/** What a person has to say in so many words before anything that cannot be undone. */
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
      <span class="muted">The stages and the card come with it; another target, gap, way or unit has to be confirmed anew, and so has a plan that was left.</span>
    </span>
  </label>
`;
