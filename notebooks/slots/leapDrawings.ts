/** The graphs of leaps: one of them in time, where all of them land; and the oscillator beside SciPy's. */
import type { Drawing, Frame, Table } from "../../src/charts/kit/drawing.ts";
import { concertPitch, writtenPitch } from "../../src/words/instruments.ts";
import { signed } from "../../src/words/numbers.ts";
import { demoInstrument, note, noteMark } from "../paper/demo.ts";
import { plot } from "../paper/plot.ts";
import type { FollowedLeap, Landing } from "./leap.ts";
import type { attackAt, Eigenvalue, eigenvaluesAt, startingPressures } from "./outside.ts";

/** What the lips do, dashed, and what sounds. */
export function leapPlot(
  { heard, landed, landedHz }: FollowedLeap,
  resonances: readonly { readonly n: number; readonly hz: number }[],
  frame: Frame,
): Drawing {
  const seconds = heard.map((one) => one.seconds);
  const all = [...heard.flatMap(({ frequencyHz, lipHz }) => [frequencyHz ?? lipHz, lipHz])];
  const [low, high] = [0.92 * Math.min(...all), 1.08 * Math.max(...all)];
  const within = resonances.filter(({ hz }) => hz > low && hz < high);
  return plot(
    {
      name: "leap",
      title: "The slur in time",
      description:
        landed === null || landedHz === null
          ? "A second after the slur nothing sounds."
          : `A second after the slur ${note(landed)} sounds, at ${landedHz.toFixed(1)} Hz.`,
      x: { title: "seconds after the first note is left", domain: [seconds[0], seconds[seconds.length - 1]] },
      y: {
        title: "level lines are the resonances of the notes",
        domain: [low, high],
        ticks: within.map(({ hz }) => hz),
        text: (hz) => noteMark(within.find((one) => one.hz === hz)?.n ?? 0),
      },
      lines: [
        { xs: seconds, ys: heard.map(({ lipHz }) => lipHz), colour: "reference", dashed: true },
        {
          xs: seconds,
          ys: heard.map(({ frequencyHz }) => frequencyHz ?? Number.NaN),
          colour: "gap",
          width: 3,
        },
      ],
      key: [
        { text: "what sounds", colour: "gap", sign: "line" },
        { text: "what the lips alone would", colour: "reference", sign: "dashes" },
      ],
    },
    frame,
  );
}

export const leapTable = ({ heard }: FollowedLeap): Table => ({
  columns: ["time (s)", "lips (Hz)", "sounds at (Hz)"],
  rows: heard.map(({ seconds, lipHz, frequencyHz }) => [seconds, lipHz, frequencyHz ?? "nothing sounds"]),
});

/** The landing over the miss: a tread for every note, and holes where nothing sounds. */
export function landingPlot(found: readonly Landing[], to: number, missCents: number, frame: Frame): Drawing {
  const sounded = found.filter(({ landed }) => landed !== null);
  const silent = found.filter(({ landed }) => landed === null);
  const [low, high] = [to - 2.5, to + 1.6];
  return plot(
    {
      name: "landings",
      title: "Which note then sounds",
      description: found
        .map(
          ({ missCents: miss, landed }) =>
            `${signed(miss, 0)} cents: ${landed === null ? "silence" : note(landed)}`,
        )
        .join("; "),
      x: { title: "how far the lips miss, cents", domain: [-270, 270] },
      y: {
        title: "note that sounds after a second",
        domain: [low, high],
        ticks: [to - 2, to - 1, to, to + 1],
        text: (n) => (n === to - 2 ? "none" : noteMark(n)),
      },
      points: [
        {
          xs: sounded.map((one) => one.missCents),
          ys: sounded.map(({ landed }) => landed!),
          colour: "gap",
          shape: "dot",
          size: 5,
        },
        {
          xs: silent.map((one) => one.missCents),
          ys: silent.map(() => to - 2),
          colour: "ink",
          shape: "ring",
          size: 5,
        },
      ],
      marks: [{ x: missCents, text: `${signed(missCents, 0)} cents` }],
    },
    frame,
  );
}

export const landingTable = (found: readonly Landing[]): Table => ({
  columns: ["lips miss by (cents)", "note"],
  rows: found.map(({ missCents, landed }) => [missCents, landed ?? "none"]),
});

const beside = [
  { text: "computed here", colour: "gap", sign: "line" },
  { text: "SciPy", colour: "ink", sign: "cross" },
] as const;

export const startingPlot = (
  { lipHz, pascals, outside }: ReturnType<typeof startingPressures>,
  frame: Frame,
): Drawing =>
  plot(
    {
      name: "starting",
      title: "Lowest pressure that starts anything",
      description: outside
        .map((one) => `lips at ${one.lipHz} Hz: ${one.pascals.toFixed(0)} Pa by SciPy`)
        .join("; "),
      x: {
        title: "lip frequency, Hz",
        domain: [75, 1150],
        log: true,
        ticks: [100, 200, 300, 500, 700, 1000],
      },
      y: { title: "kPa", domain: [0, 10] },
      lines: [
        {
          xs: lipHz,
          ys: pascals.map((pa) => (pa <= 10e3 ? pa / 1000 : Number.NaN)),
          colour: "gap",
          width: 2,
        },
      ],
      points: [
        {
          xs: outside.map((one) => one.lipHz),
          ys: outside.map((one) => one.pascals / 1000),
          colour: "ink",
          shape: "cross",
          size: 5,
        },
      ],
      key: beside,
    },
    frame,
  );

/** What dies faster than this, 1/s, would press all else together; the table has it. */
export const fastestShown = 400;

export const eigenvaluePlot = (all: ReturnType<typeof eigenvaluesAt>, frame: Frame): Drawing => {
  const isShown = ({ rate }: Eigenvalue) => rate > -fastestShown;
  const [ours, outside] = [all.ours.filter(isShown), all.outside.filter(isShown)];
  const rates = ours.map(({ rate }) => rate);
  return plot(
    {
      name: "eigenvalues",
      title: "What swings, and whether it grows",
      description: `Growing: ${
        ours
          .filter(({ rate }) => rate > 0)
          .map(({ hz, rate }) => `${hz.toFixed(0)} Hz at ${rate.toFixed(1)} per second`)
          .join(", ") || "nothing"
      }.`,
      x: { title: "frequency, Hz", domain: [0, 1450] },
      y: {
        title: "grows by, 1/s",
        domain: [1.1 * Math.min(...rates), Math.max(40, 1.3 * Math.max(...rates))],
      },
      lines: [{ xs: [0, 1450], ys: [0, 0], colour: "ink", width: 1 }],
      points: [
        {
          xs: ours.map(({ hz }) => hz),
          ys: ours.map(({ rate }) => rate),
          colour: "gap",
          shape: "ring",
          size: 6,
        },
        {
          xs: outside.map(({ hz }) => hz),
          ys: outside.map(({ rate }) => rate),
          colour: "ink",
          shape: "cross",
          size: 3,
        },
      ],
      key: [
        { text: "computed here", colour: "gap", sign: "ring" },
        { text: "LAPACK", colour: "ink", sign: "cross" },
      ],
    },
    frame,
  );
};

export const attackPlot = (
  { milliseconds, pascals, outside }: ReturnType<typeof attackAt>,
  frame: Frame,
): Drawing => {
  const most = Math.max(...pascals.map(Math.abs), ...outside.map(Math.abs)) / 1000;
  return plot(
    {
      name: "attack",
      title: "The first forty milliseconds in the cup",
      description: `Pressure from rest, at most ${most.toFixed(2)} kPa.`,
      x: { title: "milliseconds", domain: [0, 40] },
      y: { title: "kPa", domain: [-0.35 * most, 1.1 * most] },
      lines: [{ xs: milliseconds, ys: pascals.map((pa) => pa / 1000), colour: "gap", width: 2 }],
      points: [
        { xs: outside.map((_, ms) => ms), ys: outside.map((pa) => pa / 1000), colour: "ink", shape: "cross" },
      ],
      key: beside,
    },
    frame,
  );
};

/** A frequency with its distance from the note it is played for; of no note, from the written one nearest to it. */
export const named = (hz: number, n: number | null): string => {
  const { name, cents } = writtenPitch(hz, demoInstrument);
  const pitch = n === null ? `${name} ${signed(cents, 0)} cents` : concertPitch(hz, n, demoInstrument);
  return `${hz.toFixed(1)} Hz (${pitch})`;
};
