import type { Setup } from "../../../setup/setup.ts";

/** A file name that every system takes, from the setup's name. */
export function setupFileName({ name }: Setup): string {
  const plain = name
    .normalize("NFKD")
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .slice(0, 60)
    .replace(/^-|-$/g, "");
  return `${plain || "instrument"}.setup.json`;
}
