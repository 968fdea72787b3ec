/**
 * The order of the test files: those that need a document after one another, and so the others. A worker is kept, with the
 * modules it has loaded, only while the next file wants the same environment; mixed by length, as vitest sorts them, nearly
 * every file would start a worker, a document and all modules anew.
 */
import { readFileSync } from "node:fs";
import { BaseSequencer, type TestSpecification } from "vitest/node";

const needsDocument = ({ moduleId }: TestSpecification): boolean =>
  readFileSync(moduleId, "utf8").includes("@vitest-environment jsdom");

export class SameEnvironmentTogether extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const withDocument = new Set(sorted.filter(needsDocument));
    // projects come one after the other already, and their order stays
    return [...new Set(sorted.map(({ project }) => project))].flatMap((project) => {
      const its = sorted.filter((file) => file.project === project);
      return [
        ...its.filter((file) => withDocument.has(file)),
        ...its.filter((file) => !withDocument.has(file)),
      ];
    });
  }
}
