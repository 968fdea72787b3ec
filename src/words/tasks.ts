/** The tasks in the order of the work: how each is called, and what there is to be done in it. */
export const TASKS_IN_ORDER = [
  { task: "jobs", name: "Jobs", todo: "Begin a job, or open one: a player, a mouthpiece, an instrument." },
  { task: "measure", name: "Measure", todo: "Measure depth and insertion, and get your gap." },
  { task: "fit", name: "Fit", todo: "See which gap each mouthpiece gives in each instrument." },
  { task: "explore", name: "Explore", todo: "Move the shank, and see what the gap changes." },
  { task: "play", name: "Play", todo: "Play the modelled instrument, and hear two gaps." },
  { task: "listen", name: "Listen", todo: "Measure what this player’s notes do, by the microphone." },
  {
    task: "resonances",
    name: "Resonances",
    todo: "Measure by a sweep, before and after, what a change does to the instrument itself.",
  },
  { task: "trial", name: "Trial", todo: "Let the player try several gaps blind, before anyone cuts." },
  { task: "cut", name: "Cut", todo: "Plan the work that brings the gap to where it should be." },
  { task: "sheet", name: "Report", todo: "Print what was measured, tried and found, to hand over." },
  { task: "compare", name: "Compare", todo: "Put leadpipes and instruments side by side." },
  { task: "learn", name: "Learn", todo: "Read how it works, and how far to trust it." },
] as const;

/** What comes after a task; the last leads back to the first. */
export function nextTask(task: (typeof TASKS_IN_ORDER)[number]["task"]): (typeof TASKS_IN_ORDER)[number] {
  const at = TASKS_IN_ORDER.findIndex((one) => one.task === task);
  return TASKS_IN_ORDER[(at + 1) % TASKS_IN_ORDER.length];
}

/** What a newcomer is asked and offered. */
export const WELCOME = {
  question: "What does your receiver gap do?",
  measure: "Measure mine",
  demo: "Try the demo",
  job: "Open a job",
  computing: "On the demo instrument: the first curve is being computed.",
} as const;

/** The answer for the demo in one breath, from what stands in the headline. */
export const welcomeAnswer = (change: string, finding: string | null): string =>
  `On the demo instrument: ${change[0].toLowerCase()}${change.slice(1)}${finding ? ` ${finding}` : ""}`;
