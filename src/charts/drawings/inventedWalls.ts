/** What no setup says of the parts around the gap: drawn plausibly, carrying no number. */
/** Drawn, not measured, mm. */
export const invented = {
  receiverWall: 1.5,
  beadHeight: 0.5,
  beadLength: 3,
  /** Receiver beyond the start of the leadpipe, which sits in it. */
  sleeve: 9,
  leadpipeWall: 0.5,
  /** From the receiver's face to the shoulder when the gap is closed. */
  shoulderClear: 3,
  shoulderHeight: 1.6,
  chamfer: 0.6,
};
