/** How the sheet of resonances is laid out, beside what all sheets of takes have. */
import { css } from "lit";

export const resonancesStyles = css`
  .cautions {
    gap: 0.5rem;
  }
  .actions {
    gap: 0.75rem;
  }
  /* what a take is kept as is said on the button */
  .decide {
    grid-template-columns: repeat(auto-fit, minmax(min(14rem, 100%), 1fr));
  }
  .decide button {
    font-size: var(--type-16);
  }
  @media print {
    .actions {
      display: none;
    }
  }
`;
