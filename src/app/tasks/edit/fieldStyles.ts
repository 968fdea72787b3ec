import { css } from "lit";

export const fieldStyles = css`
  :host {
    display: block;
  }

  .entry {
    display: grid;
    grid-template-columns: minmax(7rem, 1fr) 10.5rem;
    gap: 0.125rem 0.75rem;
    align-items: center;
  }

  .tall {
    grid-template-columns: minmax(0, 1fr);
  }

  .box {
    display: flex;
    align-items: center;
    gap: 0.375rem;
  }

  input,
  select {
    /* clear of the panel's head when the keyboard comes here */
    scroll-margin-block: 4rem;
  }

  .entry:not(.tall) input {
    text-align: end;
  }

  .unit {
    flex: none;
    inline-size: 2.625rem;
    color: var(--muted);
  }

  .problem {
    grid-column: 1 / -1;
    margin-block: 0.25rem;
  }
`;
