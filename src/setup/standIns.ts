/**
 * Stand-ins: an invented, ordinary instrument of each family, to begin with while little is measured. Files in
 * `shared/standins`, drawn by `tests/reference/setup/standins.ts`; each is fetched when it is asked for.
 */

import { readSetup } from "./file/readSetup.ts";
import type { InstrumentKind } from "./instrumentKind.ts";
import type { Setup } from "./setup.ts";

const files = {
  "b-flat-trumpet": () =>
    import("../../shared/standins/b-flat-trumpet.setup.json", { with: { type: "json" } }),
  "c-trumpet": () => import("../../shared/standins/c-trumpet.setup.json", { with: { type: "json" } }),
  "e-flat-trumpet": () =>
    import("../../shared/standins/e-flat-trumpet.setup.json", { with: { type: "json" } }),
  cornet: () => import("../../shared/standins/cornet.setup.json", { with: { type: "json" } }),
  flugelhorn: () => import("../../shared/standins/flugelhorn.setup.json", { with: { type: "json" } }),
  "tenor-trombone-small": () =>
    import("../../shared/standins/tenor-trombone-small.setup.json", { with: { type: "json" } }),
  "tenor-trombone-large": () =>
    import("../../shared/standins/tenor-trombone-large.setup.json", { with: { type: "json" } }),
  "bass-trombone": () => import("../../shared/standins/bass-trombone.setup.json", { with: { type: "json" } }),
  "horn-f": () => import("../../shared/standins/horn-f.setup.json", { with: { type: "json" } }),
  "horn-b-flat": () => import("../../shared/standins/horn-b-flat.setup.json", { with: { type: "json" } }),
  euphonium: () => import("../../shared/standins/euphonium.setup.json", { with: { type: "json" } }),
  tuba: () => import("../../shared/standins/tuba.setup.json", { with: { type: "json" } }),
} as const satisfies Record<InstrumentKind, unknown>;

export type StandInId = InstrumentKind;

/** All of them, in the order of a list. */
export const STAND_INS = Object.keys(files) as readonly StandInId[];

export const isStandIn = (id: string): id is StandInId => Object.hasOwn(files, id);

/** One of them, read as any file is. */
export const standIn = async (id: StandInId): Promise<Setup> => readSetup((await files[id]()).default);
