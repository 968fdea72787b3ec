/** A line to the teacher under each figure on the projector: what to ask the class, and what to show. */

export const TEACHER_NOTE = {
  cutaway:
    "Ask: where is the gap, inside or at the shoulder? Open and close it with ↑ and ↓. Only the shank moves. The gap seen from outside, at the shoulder, is another length.",
  impedance:
    "Each peak is a note the instrument helps with. Vote first: how far do the peaks move for a tenth of an inch? Then open the gap and look at the dashed curve, the gap compared with.",
  "standing-wave":
    "Pressure along the tube on one note. The gap is near the mouthpiece, where the pressure is high. Ask why a small volume matters more there than at the bell.",
  height:
    "How much taller or lower each peak gets as the gap opens. Inside the hatched band nobody is expected to notice. Ask at which gap the first note leaves the band.",
  shift:
    "How far each note moves in pitch. A player sets the slide again: switch to “slide set again” and ask what is left.",
  spacing:
    "Whether notes stay in tune with each other: the slide cannot mend that. The trade says wider is further apart. Ask whether all notes agree.",
  pad: "Press on the pad and it plays. Each shaded column is a note's slot. Slide across an edge and hear the next note speak; then change the gap and look whether the edge moved.",
  slots:
    "Each bar is a note's slot: how far the lips can drift and the note still speaks. The dashed frame is the gap compared with. Ask whether anyone sees a rule in it.",
  hold: "Slot widths against the gap. Vote first: does a wider gap slot harder? Then look for a note that goes the other way.",
  flow: "Where the breath's pressure goes, part by part. Ask how much of it is the gap's before the figure is shown.",
} as const;
export type ProjectedName = keyof typeof TEACHER_NOTE;

export const PROJECTOR_KEYS = "← → figure · ↑ ↓ gap · Esc back";
