/**
 * A setup: one mouthpiece in one receiver on one instrument, in one air. Lengths are millimetres here, whatever the
 * file said; the file's form is `shared/annulus-setup.schema.json`, read by `readSetup`.
 */
import type { InstrumentKind } from "./instrumentKind.ts";

/** Bore profile: [position, inner diameter] in mm, position never decreasing, linear in between; equal positions are a step. */
export type ProfileMm = readonly (readonly [positionMm: number, diameterMm: number])[];

/** Room air, from which the constants are computed; `breath` warms the bore near the player's mouth. */
export interface AirConditions {
  readonly kind: "conditions";
  readonly temperatureC: number;
  /** Relative humidity, 0 to 1. */
  readonly humidity: number;
  /** Mole fraction of carbon dioxide. */
  readonly co2: number;
  /** Static pressure, Pa. */
  readonly pressurePa: number;
  /** Temperature at the rim, falling to `temperatureC` as exp(−x/reach). */
  readonly breath?: { readonly temperatureC: number; readonly reachMm: number };
}

/** Air constants in SI, used as they are. */
export interface AirConstants {
  readonly kind: "constants";
  readonly density: number;
  readonly soundSpeed: number;
  readonly viscosity: number;
  readonly heatRatio: number;
  readonly prandtl: number;
}

export interface Mouthpiece {
  readonly profileMm: ProfileMm;
  /** Rim to throat entry, mm. */
  readonly cupDepthMm?: number;
  /** To which the edge between cup and throat is rounded, mm. */
  readonly throatEdgeRadiusMm?: number;
  /** Outside diameter at the shank's end, mm. */
  readonly shankEndDiameterMm?: number;
  /** Diameter change per length of the shank's outside. */
  readonly shankTaper?: number;
  /** How far the shank goes into the receiver, mm. */
  readonly insertionMm: number;
}

export interface Receiver {
  readonly mouthDiameterMm: number;
  /** Diameter change per length; the bore narrows from the receiver's mouth inwards. */
  readonly taper: number;
  /** Receiver's face to the start of the leadpipe, mm. */
  readonly depthMm: number;
}

export interface Body {
  readonly profileMm: ProfileMm;
  /** Where the tuning slide adds its cylinder, mm from the start of the body. */
  readonly slideAtMm?: number;
}

export interface Model {
  readonly junction: "modal" | "plane";
  readonly radiation: "unflanged" | "flanged" | "open";
  /** Automatic: multimodal where that can be worked out, else plane; an `Instrument` settles it. */
  readonly bell: "plane" | "multimodal" | "automatic";
  /** Thickness of the walls' boundary layers relative to a smooth, clean bore. */
  readonly wallLossFactor: number;
}

/** Smallest differences a player is assumed to notice; a smaller one is "too small to notice". */
export interface Thresholds {
  /** Of pitch, cents. */
  readonly cents: number;
  /** Of a peak's height, dB. */
  readonly decibels: number;
  /** Of a slot's width, cents of lip frequency. */
  readonly slotCents: number;
  /** Of the pressure drop and of a note's starting pressure, %. */
  readonly pressurePercent: number;
}

/**
 * What is taken where a setup does not say. Pitch: 0.2 % of frequency (Nederveen & Dalmont 2008). Peak height: common practice,
 * no source. Slot width: no published figure was found. Two professional trumpeters' pitch scattered by 6.5 and 8.1 cents
 * (Kopiez 2003, Music Perception 20, 383), and modelled pitch follows the lips by about a third, so that lips scatter by some
 * 20 cents: a smaller change of the slot is lost in that. Pressure: common practice, no source; healthy people just notice a
 * change of their airways' load of about 18 % (Gottfried et al. 1981, authors from memory), and 10 % errs on the careful side.
 */
export const USUAL_THRESHOLDS: Thresholds = { cents: 3.5, decibels: 1, slotCents: 20, pressurePercent: 10 };

/** How well a dimension is known: u in the dimension's own unit (mm for lengths), and how many degrees of freedom u rests on. */
export interface Uncertainty {
  readonly standard: number;
  /** Infinity where the uncertainty is not itself in doubt. */
  readonly degreesOfFreedom: number;
}

/** Where a number comes from: this very instrument, a drawing or file about it, or a stand-in. */
export type Provenance = "measured" | "file" | "assumed";

export interface Setup {
  readonly name: string;
  readonly about: string;
  /** Which instrument, where the file says so; what is left out is told by `instrumentOf`. */
  readonly instrument?: InstrumentKind;
  /** The units the file was written in: what a person sees first. */
  readonly units: "mm" | "in";
  readonly air: AirConditions | AirConstants;
  readonly mouthpiece: Mouthpiece;
  readonly receiver: Receiver;
  readonly leadpipe: { readonly profileMm: ProfileMm };
  readonly body: Body;
  readonly model: Model;
  readonly thresholds: Thresholds;
  /** By the dimension's place in the file (`dimension.ts`); one left out is taken as exact. */
  readonly uncertainties: Readonly<Record<string, Uncertainty>>;
  /** By part or dimension, as the file states it; what is left out is told by `provenanceOf`. */
  readonly provenance: Readonly<Record<string, Provenance>>;
}

/** The setup's own gap: receiver depth − insertion, mm. */
export const gapMm = (setup: Setup): number => setup.receiver.depthMm - setup.mouthpiece.insertionMm;

/** Gaps nearer than this are one, mm: finer than any of them is measured or set. Own choice, no source. */
const SAME_GAP_MM = 0.005;

/** Whether two gaps are the same to anybody at the bench. */
export const isSameGap = (aMm: number, bMm: number): boolean => Math.abs(aMm - bMm) < SAME_GAP_MM;
