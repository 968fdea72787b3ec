/** What is said of the computed stream across a gap, and that it is not the player's own. */
import type { ComputedGapStream, GapStreamNumbers } from "../../study/blown/gapStream.ts";

/** Which stream is drawn. */
export const gapStreamCase = ({ gapOverDiameter, reynolds }: GapStreamNumbers): string =>
  `Re ${Number(reynolds.toPrecision(2))}, gap ${gapOverDiameter.toFixed(2)} of the bore`;

/** Of whom the drawing is: the nearest computed stream, never the instrument's own. */
export function gapStreamCaption(drawn: ComputedGapStream, own: GapStreamNumbers | null): string {
  const computed = `Computed for a smooth stream between two equal bores with sharp edges: ${gapStreamCase(drawn)}.`;
  return own === null
    ? computed
    : `${computed} It is the nearest of the computed streams to yours (${gapStreamCase(own)}), not your own.`;
}

/** The finding, for who cannot see the drawing. */
export function gapStreamDescription({ layer, turning }: ComputedGapStream): string {
  const [first, last] = [layer[0], layer[layer.length - 1]];
  const thick = ({ half, tenth }: typeof first): string => `${(100 * (tenth - half)).toFixed(0)} %`;
  return (
    "Half a section along the axis, the air flowing from left to right. The stream leaves the shank, crosses the gap nearly straight and " +
    `enters the leadpipe. Between it and the air in the gap lies the shear layer: from half to a tenth of the speed in the middle it is ${thick(first)} of the bore’s ` +
    `radius thick at the shank’s end and ${thick(layer[Math.floor(0.75 * (layer.length - 1))])} three quarters of the way across; at the leadpipe’s edge it is ${thick(last)}. ` +
    `In the gap behind it ${(100 * turning).toFixed(1)} % as much air as passes turns round.`
  );
}
