/** Speed of the lips in time: seconds of sound made in a second, one core, on the demo's column while the lips glide. */
import { DEFAULT_LIPS } from "../../src/lips/lips.ts";
import { Oscillator } from "../../src/lips/oscillator.ts";
import { MODAL_COUNT, modalColumn } from "../../src/study/feel/modalColumn.ts";
import { valveIn } from "../../src/study/feel/slots.ts";
import { Instrument } from "../../src/study/instrument/instrument.ts";
import { demo } from "../acoustics/setups.ts";
import { best, type Row } from "./bench.ts";

const RATE = 48000;
/** An AudioWorklet's. */
const BLOCK = 128;

export function lipRows(): Row[] {
  const instrument = new Instrument(demo(), { modes: MODAL_COUNT });
  const modes = modalColumn(instrument, instrument.gapMm);
  const blowing = { mouthPressure: 6000, lipHz: 434 };
  const oscillator = new Oscillator(RATE, valveIn(instrument, DEFAULT_LIPS), modes, blowing);
  const out = new Float32Array(BLOCK);
  const blocks = RATE / BLOCK;
  const second = () => {
    for (let k = 0; k < blocks; k++) {
      // up and down a few hertz, so that every sample is one of a moving lip
      oscillator.blow(6000, 434 + 3 * Math.sin(k / 10));
      oscillator.run(out);
    }
  };
  best(3, second);
  return [
    {
      name: `time simulation of the lips, 48 kHz, ${MODAL_COUNT} modes, against real time`,
      value: 1 / best(7, second),
      goal: 50,
      unit: "×",
      better: "more",
    },
  ];
}
