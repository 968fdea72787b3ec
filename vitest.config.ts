import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    testTimeout: 120_000,
    hookTimeout: 240_000,
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          name: "node",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/browser/**", "tests/cli/**"],
        },
      },
      {
        extends: true,
        test: { name: "cli", include: ["tests/cli/**/*.test.ts"], globalSetup: "tests/cli/build.ts" },
      },
      {
        extends: true,
        test: {
          name: "browser",
          include: ["tests/browser/**/*.test.ts"],
          globalSetup: "tests/browser/serve.ts",
          // a busy machine draws late, which is no fault
          expect: { poll: { timeout: 10_000 } },
          // one browser at a time: two cores, and a page that measures its own speed
          fileParallelism: false,
        },
      },
    ],
  },
});
