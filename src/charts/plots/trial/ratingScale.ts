/** The axis of ratings from 0 to 100, with what its ends mean written over the plot. */
import { scaleLinear } from "d3";
import { leftAxis } from "../../kit/axes.ts";
import { type Box, type Frame, type Scale, textWidth, typeSizes } from "../../kit/drawing.ts";
import { label, plotBox } from "../../kit/panel.ts";
import { ticksAt } from "../../kit/ticks.ts";

export interface RatingScale {
  readonly name: string;
  /** What 0 and 100 mean. */
  readonly low: string;
  readonly high: string;
}

const marks = [0, 25, 50, 75, 100];

export const scaleInWords = ({ name, low, high }: RatingScale): string => `${name}: 0 ${low}, 100 ${high}`;

/** Where ratings are drawn: room left for the axis, right for labels, above for the title and what else stands there. */
export function ratingPlot(frame: Frame, right: number, above = 0): Box {
  const { small } = typeSizes(frame);
  return plotBox(frame, { left: 14 + textWidth("100", small), right, top: small + 12 + above });
}

export function ratingAxis(svg: SVGSVGElement, frame: Frame, plot: Box, scale: RatingScale): Scale {
  const { small } = typeSizes(frame);
  const y = scaleLinear([0, 100], [plot.bottom, plot.top]);
  const on = { parent: svg, y, plot, size: small };
  leftAxis(on, ticksAt(marks), true);
  label(on, scaleInWords(scale), 0, small, { fill: "muted" });
  return y;
}
