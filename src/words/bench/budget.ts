/** What a component of a measured gap's uncertainty is called. */

const SOURCE = {
  repeats: "repeat readings",
  step: "step of the tool",
  zero: "zero of the tool",
} as const;

/** @param component of a gap's budget, such as "depth-repeats" */
export function componentName(component: string): string {
  const [length, source] = component.split("-");
  return `${length}: ${SOURCE[source as keyof typeof SOURCE]}`;
}
