/** The page's whole state: one immutable value. What can be computed from it is not in it. */
import type { Setup } from "../../setup/setup.ts";
import type { Notes } from "./notes/notes.ts";

export type Unit = "mm" | "in";
export type Magnitude = "linear" | "dB";
/** `auto` follows the system. */
export type ThemeChoice = "auto" | "light" | "dark";

/** What undo and redo move through, what autosave and a share link keep. */
export interface Document {
  readonly setup: Setup;
  /** The gap being looked at, mm; the setup's own until the person moves the shank. */
  readonly gapMm: number;
  /** What it is compared with, mm. */
  readonly referenceGapMm: number;
  /** Air flowing through while it sounds, as Explore shows it, L/min; absent: still air. */
  readonly breathLitresPerMinute?: number;
  /** What is written down at the bench. */
  readonly notes: Notes;
  /** The job of the record that it belongs to, by its id; absent: none. Not part of a file or a link. */
  readonly job?: string;
}

/** How it is looked at: kept between visits, not undone. */
export interface View {
  readonly unit: Unit;
  /** Resonance whose standing wave is drawn and that read-outs name. */
  readonly resonance: number;
  /** Number of the resonance the tuning slide brings back in the retuned results; null: there are none. */
  readonly retune: number | null;
  /** Whether the charts against gap show the retuned results or the slide as it is. */
  readonly showRetuned: boolean;
  readonly magnitude: Magnitude;
  readonly theme: ThemeChoice;
  readonly hintsSeen: boolean;
  /** Who works here, on every paper until another is typed. */
  readonly workshop: string;
  readonly technician: string;
}

/** A line for the person: what went wrong, where, what would be right; or what was done. */
export interface Message {
  readonly kind: "error" | "note";
  readonly text: string;
  /** Something the person may do about it, as a button beside the line. */
  readonly offer?: { readonly label: string; readonly accept: () => void };
}

export interface State {
  readonly document: Document;
  readonly view: View;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly message: Message | null;
}

export const FIRST_VIEW: View = {
  unit: "mm",
  resonance: 4,
  retune: 4,
  showRetuned: false,
  magnitude: "linear",
  theme: "auto",
  hintsSeen: false,
  workshop: "",
  technician: "",
};
