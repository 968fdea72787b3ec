/** How the gap that is looked at stands on the sheet: its value, its slider, the ways to set it; on a phone the value alone until more is asked for. */
import { css } from "lit";

export const gapReadoutStyles = css`
  :host {
    display: grid;
    grid-template-columns: max-content minmax(12rem, 1fr) max-content;
    grid-template-areas: "value slider set";
    gap: 0.25rem 2rem;
    align-items: center;
  }
  .value {
    grid-area: value;
    min-width: 13.5rem;
    color: var(--gap);
  }
  .big {
    display: block;
    font-size: var(--type-44);
    font-weight: 700;
    line-height: 1;
    letter-spacing: -0.01em;
  }
  .big small {
    font-size: var(--type-20);
    font-weight: 600;
    letter-spacing: 0;
  }
  .other {
    font-size: var(--type-20);
    font-weight: 600;
  }
  .value.own {
    color: var(--reference);
  }
  .which {
    display: block;
    font-size: var(--type-14);
    font-weight: 650;
  }
  .against {
    font-size: var(--type-14);
    color: var(--reference);
  }
  .slider {
    grid-area: slider;
    position: relative;
    min-width: 0;
  }
  input[type="range"] {
    appearance: none;
    -webkit-appearance: none;
    display: block;
    width: 100%;
    height: var(--touch);
    margin: 0;
    background: none;
    cursor: ew-resize;
    touch-action: none;
  }
  input[type="range"]::-webkit-slider-runnable-track {
    height: 3px;
    background: var(--ink);
  }
  input[type="range"]::-moz-range-track {
    height: 3px;
    background: var(--ink);
  }
  input[type="range"]::-webkit-slider-thumb {
    -webkit-appearance: none;
    width: 1.5rem;
    height: 1.5rem;
    margin-top: calc(1.5px - 0.75rem);
    border: 3px solid var(--paper);
    border-radius: 50%;
    background: var(--gap);
    box-shadow: 0 0 0 1.5px var(--gap);
  }
  input[type="range"]::-moz-range-thumb {
    width: 1.25rem;
    height: 1.25rem;
    border: 3px solid var(--paper);
    border-radius: 50%;
    background: var(--gap);
    box-shadow: 0 0 0 1.5px var(--gap);
  }
  .mark {
    position: absolute;
    top: 0;
    height: var(--touch);
    width: 0;
    border-left: 2px dashed var(--reference);
    pointer-events: none;
  }
  .under {
    display: flex;
    flex-wrap: wrap;
    justify-content: space-between;
    align-items: center;
    gap: 0.25rem 0.5rem;
    font-size: var(--type-12);
    color: var(--muted);
  }
  .chips {
    display: flex;
    align-items: center;
    gap: 0.25rem;
  }
  .chips button {
    min-height: min(var(--touch), 2.75rem);
    padding: 0 0.6rem;
    color: var(--ink);
  }
  .set {
    grid-area: set;
    display: grid;
    gap: 0.375rem;
    align-content: center;
  }
  .references {
    display: flex;
    gap: 0.25rem;
  }
  .references button {
    flex: 1;
  }
  .more {
    display: none;
  }
  @container sheet (max-width: 1099px) {
    :host {
      grid-template-columns: max-content 1fr;
      grid-template-areas: "value slider" "set set";
    }
    .set {
      display: flex;
      flex-wrap: wrap;
      align-items: flex-start;
    }
  }
  @media (max-width: 699px) {
    :host {
      grid-template-columns: 1fr max-content;
      grid-template-areas: "value more" "slider slider" "set set";
      gap: 0 0.75rem;
      padding-bottom: env(safe-area-inset-bottom, 0);
    }
    .value {
      display: flex;
      flex-wrap: wrap;
      align-items: baseline;
      column-gap: 0.6rem;
    }
    .big {
      font-size: var(--type-28);
    }
    .other {
      font-size: var(--type-16);
    }
    .against {
      flex-basis: 100%;
      font-size: var(--type-12);
    }
    .more {
      display: inline-flex;
      grid-area: more;
    }
    .under,
    .set {
      display: none;
    }
    :host(.open) .under,
    :host(.open) .set {
      display: flex;
    }
    .set {
      flex-direction: column;
      align-items: stretch;
      padding-top: 0.5rem;
    }
    .fraction {
      display: none;
    }
  }
  @media print {
    .slider,
    .set {
      display: none;
    }
  }
`;
