import { defineConfig } from "vitest/config";
import { ByProject } from "./vitest.sequence.ts";

const slow = "tests/**/*.slow.test.ts";
const built = ["tests/browser/**", "tests/tour/**", "tests/cli/**"];

/** What each project holds, and when to run it: DEVELOPERS.md, "Tests". */
export default defineConfig({
  test: {
    // transformed modules are kept between runs, by content
    experimental: { fsModuleCache: true, fsModuleCachePath: "node_modules/.cache/vitest" },
    testTimeout: 120_000,
    hookTimeout: 240_000,
    maxWorkers: 2,
    setupFiles: ["tests/arithmetic.ts", "tests/properties.ts"],
    sequence: { sequencer: ByProject },
    projects: [
      {
        extends: true,
        test: {
          name: "node",
          include: ["tests/**/*.test.ts"],
          exclude: [slow, ...built],
          // most of the time would go into loading the same modules for every file again
          isolate: false,
          pool: "threads",
        },
      },
      {
        extends: true,
        test: { name: "slow", include: [slow], exclude: built, isolate: false },
      },
      {
        extends: true,
        test: {
          name: "cli",
          include: ["tests/cli/**/*.test.ts"],
          globalSetup: "tests/cli/build.ts",
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          globalSetup: "tests/browser/serve.ts",
          isolate: false,
          testTimeout: 300_000,
          // a machine that stops for a minute is no fault; a test that fails twice is one, and a second try is told
          retry: 1,
          // a busy machine draws late, which is no fault
          expect: { poll: { timeout: 30_000 } },
        },
      },
      {
        extends: true,
        test: {
          name: "tour",
          include: ["tests/tour/**/*.test.ts"],
          globalSetup: "tests/tour/serve.ts",
          testTimeout: 300_000,
          retry: 1,
          expect: { poll: { timeout: 60_000 } },
        },
      },
    ],
  },
});
