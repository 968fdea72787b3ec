/** Three leadpipes that nobody has made, to see what comparing shows: drawn for this page alone, to the demo's length and end. */
import type { LeadpipeShape } from "../../../../setup/bore/leadpipeShape.ts";

const demo = { endDiameterMm: 11.68, lengthMm: 240 } as const;

export const INVENTED: readonly { readonly name: string; readonly shape: LeadpipeShape }[] = [
  {
    name: "Even taper (invented)",
    shape: { ...demo, entryDiameterMm: 8.75, narrowestAtMm: 0, entryTaper: 0 },
  },
  {
    name: "Long entry (invented)",
    shape: { ...demo, entryDiameterMm: 8.95, narrowestAtMm: 50, entryTaper: 0.006 },
  },
  {
    name: "Quick taper (invented)",
    shape: { ...demo, entryDiameterMm: 8.75, narrowestAtMm: 12, entryTaper: 0.01, taper: 0.028 },
  },
];
