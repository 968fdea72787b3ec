/** What making a backup and restoring one look like. */
import { css } from "lit";

export const backupStyles = css`
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
