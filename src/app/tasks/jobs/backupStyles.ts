/** What making a backup and restoring one look like. */
import { css } from "lit";

export const backupStyles = css`
  :host {
    display: grid;
    gap: 0.75rem;
    container: none;
  }
  p,
  .tick,
  .actions {
    font-size: var(--type-14);
    text-wrap: pretty;
  }
  .actions {
    align-items: center;
  }
`;
