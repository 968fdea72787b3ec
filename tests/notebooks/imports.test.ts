/** What the notebooks' cells take from the program is there: the compiler does not read HTML. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";

const FOLDER = "notebooks";
const IMPORT = /import \{([^}]+)\} from "(\.[^"]+\.ts)"/g;

const taken = readdirSync(FOLDER)
  .filter((name) => name.endsWith(".html"))
  .flatMap((name) =>
    [...readFileSync(join(FOLDER, name), "utf8").matchAll(IMPORT)].flatMap(([, names, from]) =>
      names
        .split(",")
        .map((one) => one.trim().split(" as ")[0])
        .filter((one) => one !== "")
        .map((one) => ({ notebook: name, one, file: join(dirname(join(FOLDER, name)), from) })),
    ),
  );

test("every name that a notebook imports is exported where it is looked for", () => {
  expect(taken.length).toBeGreaterThan(50);
  for (const { notebook, one, file } of taken) {
    const isExported = new RegExp(
      `export (async )?(const|function\\*?|class|enum|let) ${one}\\b|export \\{[^}]*\\b${one}\\b[^}]*\\}`,
    );
    expect(readFileSync(file, "utf8"), `${one} in ${notebook}`).toMatch(isExported);
  }
});
