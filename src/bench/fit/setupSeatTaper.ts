/** The taper that stops a setup's shank; a shank whose own taper is not known is taken to fit the receiver's. */
import type { Setup } from "../../setup/setup.ts";
import { seatTaper } from "./seat.ts";

export const setupSeatTaper = ({ mouthpiece, receiver }: Setup): number =>
  seatTaper(mouthpiece.shankTaper ?? receiver.taper, receiver.taper);
