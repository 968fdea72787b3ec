import { it } from "vitest";
import { expectBodyBumpAsTwo } from "./bodyBump.ts";

it.each([270, 780, 900, 1010])(
  "sensitivity in a bell with curved fronts is what two instruments with a bump differ by: %s mm into the body",
  (fromMm) => {
    expectBodyBumpAsTwo(fromMm);
  },
);
