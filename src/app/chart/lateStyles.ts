/** What is drawn from an answer that is late (`work/work.ts`) is grey. */
import { css } from "lit";

export const lateStyles = css`
  .late {
    opacity: 0.4;
  }
`;
