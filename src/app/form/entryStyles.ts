/** How a field that something is typed into says that it is wrong, and what. */
import { css } from "lit";

export const entryStyles = css`
  [aria-invalid="true"]:not(:focus-visible) {
    outline: 2px solid var(--gap);
    outline-offset: -2px;
  }
  .problem {
    display: flex;
    gap: 0.3rem;
    font-size: var(--type-12);
    line-height: 1.3;
    color: var(--gap);
  }
`;
