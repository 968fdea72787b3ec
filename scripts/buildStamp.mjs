// Whether the built page is that of the sources as they are: a hash over the content of everything a build reads.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** The notebooks read the tables of outside values, hence tests/reference. Content, since a check-out renews all times. */
const READ = ["src", "workers", "notebooks", "shared", "public", "tests/reference"];
const READ_IN_ROOT = /\.(html|json|ts)$/;
/** Beside dist/page, which a build empties. */
const STAMP = "dist/page.stamp";

function filesUnder(root, folder) {
  const path = join(root, folder);
  if (!existsSync(path)) return [];
  return readdirSync(path, { recursive: true })
    .map((name) => join(folder, name))
    .filter((name) => statSync(join(root, name)).isFile());
}

/** Hash over names and content: a source changed, added, renamed or deleted makes another. */
export function sourceHash(root) {
  const inRoot = readdirSync(root).filter((name) => READ_IN_ROOT.test(name));
  const hash = createHash("sha256").update(process.version);
  for (const name of [...inRoot, ...READ.flatMap((folder) => filesUnder(root, folder))].sort()) {
    const content = readFileSync(join(root, name));
    hash.update(`\0${name}\0${content.length}\0`).update(content);
  }
  return hash.digest("hex");
}

/** Whether dist/page was built from these very sources. */
export const isBuilt = (root) =>
  existsSync(join(root, "dist/page/index.html")) &&
  existsSync(join(root, STAMP)) &&
  readFileSync(join(root, STAMP), "utf8") === sourceHash(root);

/** Before a build: what is in dist/page from now on is nothing whole. */
export const forgetBuild = (root) => rmSync(join(root, STAMP), { force: true });

/** After a good build. `hash` is that of the sources when it began: they may have changed meanwhile. */
export function rememberBuild(root, hash) {
  mkdirSync(join(root, "dist"), { recursive: true });
  writeFileSync(join(root, STAMP), hash);
}
