/** The same setup with another bell. */
import type { Model, Setup } from "./setup.ts";

const known = new WeakMap<Model, Readonly<Record<"plane" | "multimodal", Model>>>();

/** Of one model always the same new one, so that what was worked out with it is known again. */
export function withBell(setup: Setup, bell: "plane" | "multimodal"): Setup {
  const models = known.get(setup.model) ?? {
    plane: { ...setup.model, bell: "plane" },
    multimodal: { ...setup.model, bell: "multimodal" },
  };
  known.set(setup.model, models);
  return { ...setup, model: models[bell] };
}
