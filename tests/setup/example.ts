/** The setup file of the format's description, complete, with invented dimensions. */
export const exampleFile = () => ({
  format: "annulus-setup",
  version: 1,
  name: "Invented trumpet",
  about: "Invented dimensions of a usual size; nobody's instrument.",
  units: "mm",
  air: { temperature: 27, humidity: 0.5, co2: 0.0004, pressure: 101325 },
  mouthpiece: {
    profile: [
      [0, 16.4],
      [11, 3.7],
      [16, 3.7],
      [79, 8.5],
    ],
    cupDepth: 11,
    shankEndDiameter: 9.7,
    shankTaper: 0.05,
    insertion: 22.0,
  },
  receiver: { mouthDiameter: 10.8, taper: 0.05, depth: 24.54 },
  leadpipe: {
    profile: [
      [0, 8.8],
      [240, 11.68],
    ],
  },
  body: {
    profile: [
      [0, 11.68],
      [600, 11.68],
      [1030, 122],
    ],
    slideAt: 120,
  },
  model: { junction: "modal", radiation: "unflanged", bell: "plane" },
  thresholds: { cents: 3.5, decibels: 1, slotCents: 20, pressurePercent: 10 },
});
