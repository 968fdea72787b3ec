/**
 * npm run strings [-- WORD …]: every text that a person reads, a line each with its file, to be read aloud; with words, only the
 * lines that have one of them. From the sources by their syntax (so that no address, key or style is among them), the
 * schemas' descriptions, README and the notebooks. What is filled in shows as {…}.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import ts from "typescript";

const root = fileURLToPath(new URL("../", import.meta.url));
const HOLE = "{…}";
/** Attributes that are read out or shown. */
const READ_ATTRIBUTE =
  /(?:^|\s)(?:aria-label|aria-valuetext|title|label|hint|placeholder|alt|\.label|\.hint)=(?:"([^"]*)"|\$?(\{…\}))/g;

/** @returns {{ file: string, line: number, text: string }[]} */
export function strings() {
  return [
    ...files("src", ".ts").flatMap(ofSource),
    ...files("notebooks", ".ts").flatMap(ofSource),
    ...files("workers", ".ts").flatMap(ofSource),
    ...files("shared", ".schema.json").flatMap(ofSchema),
    ...files("notebooks", ".html").flatMap(ofNotebook),
    ...ofText("README.md", readFileSync(join(root, "README.md"), "utf8"), 1),
  ];
}

function files(folder, ending) {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(ending) && !name.endsWith(".d.ts"))
    .map((name) => join(folder, name))
    .sort();
}

/** @param {string} file */
function ofSource(file) {
  return ofCode(file, readFileSync(join(root, file), "utf8"));
}

/** The texts in a piece of TypeScript. */
export function ofCode(file, code, firstLine = 1) {
  const source = ts.createSourceFile(file, code, ts.ScriptTarget.Latest, true);
  const found = [];
  const take = (node, text) => {
    for (const piece of text) {
      const line = firstLine + source.getLineAndCharacterOfPosition(node.getStart()).line;
      if (isRead(piece)) found.push({ file, line, text: piece });
    }
  };
  const visit = (node) => {
    if (ts.isImportDeclaration(node) || ts.isExportDeclaration(node) || ts.isTypeNode(node)) return;
    if (ts.isTaggedTemplateExpression(node)) {
      const tag = node.tag.getText();
      if (tag === "html" || tag === "svg") take(node, readInHtml(written(node.template)));
      if (tag !== "css") ts.forEachChild(node.template, visit);
      return;
    }
    if (ts.isStringLiteralLike(node)) {
      if (!isAddressed(node)) take(node, [clean(node.text)]);
      return;
    }
    if (ts.isTemplateExpression(node)) take(node, [clean(written(node))]);
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** A template's text, its holes as they are shown. */
const written = (template) =>
  ts.isNoSubstitutionTemplateLiteral(template)
    ? template.text
    : template.head.text + template.templateSpans.map(({ literal }) => HOLE + literal.text).join("");

/** Keys, what is compared with, and what is handed to a machine. */
function isAddressed(node) {
  const { parent } = node;
  if (ts.isPropertyAssignment(parent) && parent.name === node) return true;
  if (ts.isElementAccessExpression(parent) || ts.isCaseClause(parent)) return true;
  if (ts.isImportTypeNode(parent) || ts.isLiteralTypeNode(parent)) return true;
  if (ts.isCallExpression(parent)) {
    const called = parent.expression.getText();
    return /(?:querySelector|querySelectorAll|attr|style|setProperty|getAttribute|setAttribute|classed|matches|closest|import)$/.test(
      called,
    );
  }
  return ts.isBinaryExpression(parent) && /[=!]==/.test(parent.operatorToken.getText());
}

/** Text between the tags, a piece each, and the attributes that are read. */
function readInHtml(template) {
  const comments = template.replaceAll(/<!--.*?-->/gs, "");
  const attributes = [...comments.matchAll(READ_ATTRIBUTE)].map(([, quoted]) => clean(quoted ?? ""));
  const text = comments
    .replaceAll(/<\/?(?:b|i|em|small|strong|a|code|span|sub|sup)\b[^>]*>/g, "")
    .split(/<[^>]*>/)
    .map(clean);
  return [...text, ...attributes];
}

const clean = (text) => text.replaceAll(/\s+/g, " ").trim();

/** Whether a person reads it: a sentence, a label; not a key, a style, an address. */
function isRead(text) {
  const words = text
    .replaceAll(HOLE, " ")
    .replaceAll(/[{}<>]/g, " ")
    .trim();
  if (!/\p{L}{2}/u.test(words)) return false;
  if (!/\s/.test(text) && /^[\w.\-/#:@,]*$/.test(words) && !/^\p{Lu}\p{Ll}+$/u.test(words)) return false;
  if (/^[a-z-]+: ?[^ ]+;?$/.test(words) || /var\(--|^[.#][\w-]+|^https?:|^[MLCZ][\d., -]+/.test(words))
    return false;
  return true;
}

/** Titles and descriptions of a schema. */
function ofSchema(file) {
  const text = readFileSync(join(root, file), "utf8");
  return text.split("\n").flatMap((line, at) => {
    const said = /"(?:title|description)":\s*"((?:[^"\\]|\\.)*)"/.exec(line);
    return said ? [{ file, line: at + 1, text: JSON.parse(`"${said[1]}"`) }] : [];
  });
}

/** A notebook's prose, paragraph by paragraph, and the texts in its code. */
function ofNotebook(file) {
  const text = readFileSync(join(root, file), "utf8");
  return [...text.matchAll(/<script type="([^"]*)"[^>]*>(.*?)<\/script>/gs)].flatMap(
    ({ 1: type, 2: body, index }) => {
      const line = text.slice(0, index).split("\n").length;
      return type === "text/markdown" ? ofText(file, body, line) : ofCode(file, body, line);
    },
  );
}

/** Prose, a paragraph a piece; code in it is not read. */
function ofText(file, text, firstLine) {
  let line = firstLine;
  let isCode = false;
  return text.split(/\n[ \t]*\n/).flatMap((paragraph) => {
    const at = line;
    line += paragraph.split("\n").length + 1;
    const fences = paragraph.split("```").length - 1;
    const isInside = isCode || fences > 0;
    if (fences % 2 === 1) isCode = !isCode;
    const piece = clean(paragraph.replaceAll(/<[^>]*>/g, ""));
    return isInside || !isRead(piece) ? [] : [{ file, line: at, text: piece }];
  });
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const asked = process.argv.slice(2).map((word) => word.toLowerCase());
  for (const { file, line, text } of strings())
    if (asked.length === 0 || asked.some((word) => text.toLowerCase().includes(word)))
      process.stdout.write(`${relative(".", join(root, file))}:${line}\t${text}\n`);
}
