/** All checks against values from outside that have a table of their own, in the order of the house. */
import { airAndWalls } from "./airAndWalls.ts";
import type { Check } from "./check.ts";
import { statisticsAndShapes } from "./statisticsAndShapes.ts";
import { theBell } from "./theBell.ts";
import { theFlow } from "./theFlow.ts";
import { theGap } from "./theGap.ts";
import { theLips } from "./theLips.ts";
import { wholeBore } from "./wholeBore.ts";

export const CHECKS: readonly Check[] = [
  ...airAndWalls,
  ...theGap,
  ...wholeBore,
  ...theBell,
  ...theFlow,
  ...theLips,
  ...statisticsAndShapes,
];
