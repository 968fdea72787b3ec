/**
 * How instruments of a kind usually differ from one another: what stands in for a dimension that nobody measured. Results
 * then are those of instruments like this one.
 *
 * The figures are this tool's own choice, by what is on sale and on the bench, with no source; they are standard deviations,
 * so that two instruments in three lie within them. A bore differs smoothly: by a few slow curves over its length and a
 * stretch, never point by point, so that a drawn instrument is one that could be made.
 */

import type { DimensionUnit } from "../../setup/dimension/dimension.ts";
import { dimensionAt } from "../../setup/dimension/dimension.ts";
import { hasDimension, type ProvenanceDimension, provenanceOf } from "../../setup/dimension/provenance.ts";
import type { ProfileMm, Setup } from "../../setup/setup.ts";

/** One way in which instruments like this one differ. */
export interface Spread {
  readonly path: string;
  readonly name: string;
  readonly unit: DimensionUnit;
  /** Standard deviation, in `unit`. */
  readonly standard: number;
  /** A setup that differs by so much, in `unit`. Not checked: a large step may leave no instrument. */
  readonly moved: (setup: Setup, by: number) => Setup;
}

/** Of single dimensions, in mm, °C or as the taper is. */
const OF_DIMENSION: Readonly<Partial<Record<ProvenanceDimension, number>>> = {
  // where makers set the leadpipe, and how far a worn or new receiver takes the shank
  "receiver.depth": 0.5,
  "mouthpiece.insertion": 0.5,
  // wear and reaming
  "receiver.mouthDiameter": 0.1,
  // 1:20 beside Morse 0 and 1: 0.050 to 0.052, and a maker's own
  "receiver.taper": 0.001,
  // a room whose thermometer nobody read
  "air.temperature": 2,
  "air.humidity": 0.15,
};

type ProfilePart = "mouthpiece" | "leadpipe" | "body";

/** Slow curves: all wider; one end wider, the other narrower; both ends wider, the middle narrower. */
const CURVES = ["larger all along", "larger at one end", "larger at both ends"] as const;

/** Share of the diameter, of each of the three curves: at either end they add up to √3 of it. */
const OF_DIAMETERS = {
  // 0.12 mm at the start of a trumpet's: leadpipes of one bore differ so by model
  leadpipe: 0.008,
  // bells of one bore and one mouth, by maker: 2 % at the ends
  body: 0.012,
} as const;

/** Length of the part, mm: what a tuning slide takes back, and where its tapers end. */
const OF_LENGTH_MM = { mouthpiece: 1, leadpipe: 3, body: 5 } as const;

/** The inside of a mouthpiece; cups and backbores as shares of what they open beyond the throat. */
const OF_MOUTHPIECE = {
  cup: 0.03,
  cupDepthMm: 0.5,
  throatMm: 0.05,
  backbore: 0.05,
} as const;

/** Every way in which instruments differ that are like this one in what is assumed of it. */
export function ordinarySpread(setup: Setup): readonly Spread[] {
  const isOpen = (dimension: ProvenanceDimension) =>
    hasDimension(setup, dimension) && provenanceOf(setup, dimension) === "assumed";
  return [
    ...Object.entries(OF_DIMENSION).flatMap(([path, standard]) =>
      // what the setup itself says of it goes before
      isOpen(path as ProvenanceDimension) && setup.uncertainties[path] === undefined
        ? [ofDimension(setup, path, standard)]
        : [],
    ),
    ...(isOpen("mouthpiece.profile") ? ofMouthpiece() : []),
    ...(isOpen("leadpipe.profile") ? ofBore("leadpipe") : []),
    ...(isOpen("body.profile") ? ofBore("body") : []),
  ];
}

function ofDimension(setup: Setup, path: string, standard: number): Spread {
  const { name, unit } = dimensionAt(setup, path)!;
  return { path, name, unit, standard, moved: (one, by) => dimensionAt(one, path)!.moved(by) };
}

const withProfile = (setup: Setup, part: ProfilePart, profileMm: ProfileMm): Setup => ({
  ...setup,
  [part]: { ...setup[part], profileMm },
});

function ofBore(part: "leadpipe" | "body"): readonly Spread[] {
  return [
    ...CURVES.map(
      (curve, order): Spread => ({
        path: `${part}.curve[${order}]`,
        name: `${part} diameters ${curve}`,
        unit: "",
        standard: OF_DIAMETERS[part],
        moved: (setup, by) => {
          const { profileMm } = setup[part];
          const [startMm, endMm] = ends(profileMm);
          const along = (xMm: number) => Math.cos((Math.PI * order * (xMm - startMm)) / (endMm - startMm));
          return withProfile(
            setup,
            part,
            profileMm.map(([xMm, dMm]) => [xMm, dMm * (1 + by * along(xMm))] as const),
          );
        },
      }),
    ),
    {
      path: `${part}.length`,
      name: `${part} length`,
      unit: "mm",
      standard: OF_LENGTH_MM[part],
      moved: (setup, by) => {
        const { profileMm } = setup[part];
        const stretched = withProfile(setup, part, stretchedFrom(profileMm, ends(profileMm)[0], by));
        const { slideAtMm } = setup.body;
        if (part !== "body" || slideAtMm === undefined) return stretched;
        // the slide stays where it is in the bore
        const [startMm, endMm] = ends(profileMm);
        return {
          ...stretched,
          body: { ...stretched.body, slideAtMm: slideAtMm * (1 + by / (endMm - startMm)) },
        };
      },
    },
  ];
}

function ofMouthpiece(): readonly Spread[] {
  const spread = (
    what: string,
    name: string,
    unit: "mm" | "",
    standard: number,
    changed: (profileMm: ProfileMm, inside: Inside, by: number) => ProfileMm,
  ): Spread => ({
    path: `mouthpiece.${what}`,
    name,
    unit,
    standard,
    moved: (setup, by) => {
      const { profileMm, cupDepthMm } = setup.mouthpiece;
      const moved = withProfile(setup, "mouthpiece", changed(profileMm, insideOf(profileMm, cupDepthMm), by));
      return what === "cupLength" && cupDepthMm !== undefined
        ? { ...moved, mouthpiece: { ...moved.mouthpiece, cupDepthMm: cupDepthMm + by } }
        : moved;
    },
  });
  /** What opens beyond the throat, so much wider. */
  const opened =
    (isThere: (xMm: number, inside: Inside) => boolean) =>
    (profileMm: ProfileMm, inside: Inside, by: number): ProfileMm =>
      profileMm.map(([xMm, dMm]) =>
        isThere(xMm, inside) ? ([xMm, dMm + by * (dMm - inside.throatMm)] as const) : ([xMm, dMm] as const),
      );
  return [
    spread(
      "cup",
      "cup diameters",
      "",
      OF_MOUTHPIECE.cup,
      opened((xMm, { entryMm }) => xMm < entryMm),
    ),
    spread("cupLength", "cup depth", "mm", OF_MOUTHPIECE.cupDepthMm, (profileMm, { startMm, entryMm }, by) =>
      profileMm.map(([xMm, dMm]) => {
        const share = Math.min(1, (xMm - startMm) / (entryMm - startMm));
        return [xMm + by * share, dMm] as const;
      }),
    ),
    spread(
      "throat",
      "throat diameter",
      "mm",
      OF_MOUTHPIECE.throatMm,
      (profileMm, { throatMm, entryMm }, by) => {
        const [rimMm, exitMm] = [profileMm[0][1], profileMm[profileMm.length - 1][1]];
        // the rim and the exit stay
        return profileMm.map(([xMm, dMm]) => {
          const widestMm = xMm < entryMm ? rimMm : exitMm;
          const share = widestMm > throatMm ? (dMm - throatMm) / (widestMm - throatMm) : 0;
          return [xMm, dMm + by * (1 - Math.min(1, share))] as const;
        });
      },
    ),
    spread(
      "backbore",
      "backbore diameters",
      "",
      OF_MOUTHPIECE.backbore,
      opened((xMm, { entryMm }) => xMm >= entryMm),
    ),
    spread("length", "mouthpiece length", "mm", OF_LENGTH_MM.mouthpiece, (profileMm, { entryMm }, by) =>
      stretchedFrom(profileMm, entryMm, by),
    ),
  ];
}

interface Inside {
  readonly startMm: number;
  readonly throatMm: number;
  /** Where the cup ends in the throat. */
  readonly entryMm: number;
}

/** The throat is the narrowest bore; its entry is where the cup's depth says or, left unsaid, where it is first as narrow. */
function insideOf(profileMm: ProfileMm, cupDepthMm: number | undefined): Inside {
  const startMm = profileMm[0][0];
  const throatMm = Math.min(...profileMm.map(([, dMm]) => dMm));
  const firstMm = profileMm.find(([, dMm]) => dMm === throatMm)![0];
  const entryMm = cupDepthMm === undefined ? firstMm : startMm + cupDepthMm;
  return { startMm, throatMm, entryMm: entryMm > startMm ? entryMm : ends(profileMm)[1] };
}

const ends = (profileMm: ProfileMm): readonly [startMm: number, endMm: number] => [
  profileMm[0][0],
  profileMm[profileMm.length - 1][0],
];

/** Longer by so much from a place on, evenly. */
function stretchedFrom(profileMm: ProfileMm, fromMm: number, byMm: number): ProfileMm {
  const lengthMm = ends(profileMm)[1] - fromMm;
  return profileMm.map(([xMm, dMm]) => [xMm + byMm * Math.max(0, (xMm - fromMm) / lengthMm), dMm] as const);
}
