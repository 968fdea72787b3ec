/**
 * Between what sizes a setup is an instrument. Outside REFUSED it is none that the model can say anything of: a slip of unit or
 * of a decimal sign, and the numbers would be nonsense. Outside USUAL it can be one, but none of those in use from piccolo
 * trumpet to contrabass tuba and alphorn: it is taken, with a warning. Sizes in use are common practice, no source.
 *
 * Lengths in mm; ratios are of diameters, whose square is that of the areas.
 */

/** What both ends of a range are for one thing. */
export interface Range {
  readonly least: number;
  readonly most: number;
}

export const REFUSED = {
  /**
   * Throats in use are drilled 3 mm and more. In 1 mm the boundary layer of a low note fills half of the radius and a metre of
   * tube leaves nothing of a peak; the widest bells are below 800 mm.
   */
  diameter: { least: 1, most: 1500 },
  /** Of mouthpiece, leadpipe and receiver: the widest in use, a contrabass tuba's cup, is below 40 mm. */
  narrowPart: { least: 1, most: 100 },
  /** From a shank alone to a mouthpiece with its extension. */
  mouthpieceLength: { least: 10, most: 500 },
  /** From a stub in a one-piece instrument to the whole first yard of a natural one. */
  leadpipeLength: { least: 5, most: 2500 },
  bodyLength: { least: 50, most: 20_000 },
  /**
   * The steps' inertances are those at low frequency: 14 spacings of a shorter tube reach beyond 8 kHz, where the wave across a
   * receiver of 50 mm has long been half a wavelength.
   */
  wholeLength: { least: 300, most: 20_000 },
  receiverDepth: { least: 1, most: 150 },
  /** Receivers in use are below 20 mm wide. */
  receiverWidth: { least: 1, most: 50 },
  /**
   * Receiver over the narrower of shank exit and start of the leadpipe (25 in area). In use it is below 1.6. A wider cavity
   * between two mouths resonates by itself within the notes, where the gap's fields are no longer those at rest and Re Z < 0
   * came out of it.
   */
  cavityRatio: { least: 0, most: 5 },
  /** Two diameters at one place or at the joint of two parts (100 in area): a wall across the bore, not a step of a tube. */
  stepRatio: { least: 1, most: 10 },
  /**
   * The sum of |Δ ln diameter| along the whole bore: a real one, cup to bell, has 6 to 8, a measured table with noise some more. A bore that
   * widens and narrows like a row of chambers stops sound instead of sounding, and costs minutes.
   */
  ups: { least: 0, most: 25 },
  /** Points of all three parts together: ten a millimetre of what is fine in an instrument. */
  points: { least: 6, most: 6000 },
} as const satisfies Record<string, Range>;

export const USUAL = {
  diameter: { least: 2.5, most: 800 },
  cup: { least: 10, most: 45 },
  leadpipeWidth: { least: 2.5, most: 40 },
  mouthpieceLength: { least: 30, most: 150 },
  leadpipeLength: { least: 50, most: 1500 },
  wholeLength: { least: 500, most: 12_000 },
  cupDepth: { least: 3, most: 80 },
  receiverDepth: { least: 8, most: 80 },
  /** The gap's model is held against finite elements up to here. */
  gap: { least: 0, most: 12 },
  cavityRatio: { least: 0, most: 2.5 },
  stepRatio: { least: 1, most: 3 },
} as const satisfies Record<string, Range>;

/** How near, as a ratio, a diameter must come to its neighbours once it is taken for the other unit to look like a slip of it. */
export const SLIP = 1.5;
