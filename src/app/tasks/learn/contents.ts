/** The notebooks in reading order: the task Learn shows them as cards, each notebook links to the others. */
export interface NotebookEntry {
  /** Its file's name without `.html`. */
  readonly name: string;
  readonly title: string;
  /** One sentence. */
  readonly about: string;
  readonly forWhom: string;
  /** To read it and move everything once. */
  readonly minutes: number;
}

export const NOTEBOOKS: readonly NotebookEntry[] = [
  {
    name: "why-the-gap-matters",
    title: "Why the gap matters, and how little",
    about: "From a plain tube to a trumpet to the gap, and what the gap is worth in cents and decibels.",
    forWhom: "a class with a projector, and anyone who asks",
    minutes: 15,
  },
  {
    name: "how-the-gap-is-modelled",
    title: "How the gap is modelled",
    about: "Three coaxial cylinders, the flow at their edges, and finite elements beside them.",
    forWhom: "anyone checking the acoustics",
    minutes: 15,
  },
  {
    name: "resistance",
    title: "Resistance",
    about:
      "The breath on its way: where its pressure goes, what the leadpipe’s edge does to it, and what it does to a note.",
    forWhom: "technicians and makers",
    minutes: 15,
  },
  {
    name: "slots",
    title: "Slots",
    about: "A model of the lips: starting pressures, how firmly a note slots, and a slur that misses.",
    forWhom: "players, teachers and technicians",
    minutes: 15,
  },
  {
    name: "your-own-slot",
    title: "Your own slot",
    about:
      "Measure where a note breaks, by microphone or from a file, and how many bends make a difference believable.",
    forWhom: "a class with instruments, and players",
    minutes: 15,
  },
  {
    name: "how-far-to-trust-this",
    title: "How far to trust this",
    about: "Every check against a value from outside the project, its source, and how far off this tool is.",
    forWhom: "the sceptic",
    minutes: 10,
  },
  {
    name: "three-leadpipes",
    title: "Three leadpipes",
    about: "A maker's afternoon: three drawings of a leadpipe compared before any metal is cut.",
    forWhom: "makers",
    minutes: 10,
  },
];
