/** How loud the microphone hears it, as a bar and in words. */
import { css, html, type TemplateResult } from "lit";
import { signed } from "../../words/numbers.ts";

const QUIETEST_DBFS = -70;
/** Nothing is left of a wave that reaches the end of the scale. */
const TOO_LOUD_DBFS = -0.5;

/** Root mean square and largest sample, dB of full scale; null of digital silence. */
export interface Level {
  readonly levelDbfs: number | null;
  readonly peakDbfs: number | null;
}

const isTooLoud = ({ peakDbfs }: Level): boolean => peakDbfs !== null && peakDbfs > TOO_LOUD_DBFS;

/** @param tooLoud what to do where it is */
export const levelWords = (level: Level, tooLoud: string): string =>
  isTooLoud(level) ? tooLoud : `${signed(shown(level), 0)} dB of full scale`;

export const levelMeter = (level: Level): TemplateResult =>
  html`<meter min=${QUIETEST_DBFS} max="0" low="-60" high="-6" optimum="-20" .value=${shown(level)} aria-label="Level of the microphone, dB of full scale"></meter>`;

export const levelMeterStyles = css`
  meter {
    width: 100%;
    height: 1rem;
  }
`;

const shown = ({ levelDbfs }: Level): number => Math.max(QUIETEST_DBFS, levelDbfs ?? QUIETEST_DBFS);
