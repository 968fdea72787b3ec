/**
 * The order of the test files. First those that drive a browser, which take longest and wait most: the others fill what they
 * leave of the machine. Of a project those that need a document after one another, and so the others: a worker is kept, with
 * the modules it has loaded, only while the next file wants the same environment; mixed by length, as vitest sorts them,
 * nearly every file would start a worker, a document and all modules anew.
 */
import { readFileSync } from "node:fs";
import { BaseSequencer, type TestProject, type TestSpecification } from "vitest/node";

const FIRST = ["browser", "tour"];
const place = ({ name }: TestProject): number => (FIRST.includes(name) ? FIRST.indexOf(name) : FIRST.length);

const needsDocument = ({ moduleId }: TestSpecification): boolean =>
  readFileSync(moduleId, "utf8").includes("@vitest-environment jsdom");

export class ByProject extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const withDocument = new Set(sorted.filter(needsDocument));
    const projects = [...new Set(sorted.map(({ project }) => project))];
    return projects
      .sort((a, b) => place(a) - place(b))
      .flatMap((project) => {
        const its = sorted.filter((file) => file.project === project);
        return [
          ...its.filter((file) => withDocument.has(file)),
          ...its.filter((file) => !withDocument.has(file)),
        ];
      });
  }
}
