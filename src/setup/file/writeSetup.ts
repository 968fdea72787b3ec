import { dimensionAt } from "../dimension/dimension.ts";
import type { ProfileMm, Setup } from "../setup.ts";

/**
 * A setup in the form of its file, ready for `JSON.stringify`: lengths are numbers in `setup.units`. Read again, every
 * length that `readSetup` gave comes back as it was, and any other to 1e-9 mm.
 */
export function writeSetup(setup: Setup): object {
  const length = (lengthMm: number): number =>
    setup.units === "mm" ? lengthMm : Number((lengthMm / 25.4).toPrecision(15));
  const profile = (profileMm: ProfileMm) =>
    profileMm.map(([positionMm, diameterMm]) => [length(positionMm), length(diameterMm)]);
  const { mouthpiece, receiver, leadpipe, body } = setup;
  const optional = (key: string, lengthMm: number | undefined) =>
    lengthMm === undefined ? {} : { [key]: length(lengthMm) };

  return {
    format: "annulus-setup",
    version: 1,
    name: setup.name,
    about: setup.about,
    ...(setup.instrument !== undefined && { instrument: setup.instrument }),
    units: setup.units,
    air: writeAir(setup.air, length),
    mouthpiece: {
      profile: profile(mouthpiece.profileMm),
      ...optional("cupDepth", mouthpiece.cupDepthMm),
      ...optional("throatEdgeRadius", mouthpiece.throatEdgeRadiusMm),
      ...optional("shankEndDiameter", mouthpiece.shankEndDiameterMm),
      ...(mouthpiece.shankTaper !== undefined && { shankTaper: mouthpiece.shankTaper }),
      insertion: length(mouthpiece.insertionMm),
    },
    receiver: {
      mouthDiameter: length(receiver.mouthDiameterMm),
      taper: receiver.taper,
      depth: length(receiver.depthMm),
    },
    leadpipe: { profile: profile(leadpipe.profileMm) },
    body: { profile: profile(body.profileMm), ...optional("slideAt", body.slideAtMm) },
    model: { ...setup.model },
    thresholds: { ...setup.thresholds },
    ...writeUncertainties(setup, length),
    ...(Object.keys(setup.provenance).length > 0 && { provenance: { ...setup.provenance } }),
  };
}

function writeAir(air: Setup["air"], length: (lengthMm: number) => number): object {
  if (air.kind === "constants") {
    const { kind: _, ...constants } = air;
    return constants;
  }
  const { temperatureC, humidity, co2, pressurePa, breath } = air;
  return {
    temperature: temperatureC,
    humidity,
    co2,
    pressure: pressurePa,
    ...(breath && { breath: { temperature: breath.temperatureC, reach: length(breath.reachMm) } }),
  };
}

/** Nothing where every dimension is taken as exact. */
function writeUncertainties(setup: Setup, length: (lengthMm: number) => number): object {
  const entries = Object.entries(setup.uncertainties).map(([path, { standard, degreesOfFreedom }]) => {
    const inFile = dimensionAt(setup, path)?.unit === "mm" ? length(standard) : standard;
    return [path, degreesOfFreedom === Infinity ? inFile : { standard: inFile, degreesOfFreedom }];
  });
  return entries.length > 0 ? { uncertainties: Object.fromEntries(entries) } : {};
}
