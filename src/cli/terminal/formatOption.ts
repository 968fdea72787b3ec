import { Option } from "commander";

/** `--format`, the first named being what a person gets who does not ask. */
export const formatOption = (...formats: string[]): Option =>
  new Option("--format <format>", "how the result is written").choices(formats).default(formats[0]);
