import { css } from "lit";

export const compareStyles = css`
  main {
    display: grid;
    grid-template-columns: minmax(0, 1fr);
    gap: 1.5rem;
  }
  section + section,
  .notice + section {
    padding-top: 0.75rem;
    border-top: 1.5px solid var(--ink);
  }
  .about {
    max-width: 105ch;
    color: var(--muted);
    font-size: var(--type-14);
  }
  .asked {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem 1.5rem;
    font-size: var(--type-14);
  }
  .labelled {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 0.5rem;
  }
  annulus-ranking {
    padding-top: 0.5rem;
  }
  @media print {
    annulus-add-candidate,
    .about,
    .unprinted,
    section:has(> [blank]) {
      display: none;
    }
    h2 {
      break-after: avoid;
    }
  }
`;
