/** The sheet a notebook is written on: the page's own colours and type, light or dark as on the page, and the way to the others; all of them are kept for reading without a network from the first one on. */
import "../../src/app/shell/look/font.css";
import "./mathFont.css";
import { showTheme, usePalettes } from "../../src/app/shell/look/theme.ts";
import { browserShelves, restoreView } from "../../src/app/state/keeping/shelves.ts";
import { NOTEBOOKS } from "../../src/app/tasks/learn/contents.ts";
import { showKept } from "./kept.ts";
import { projectorButton } from "./projector.ts";

usePalettes();
showTheme(restoreView(browserShelves())?.theme ?? "auto");

const here = location.pathname
  .split("/")
  .pop()
  ?.replace(/\.html$/, "");
document.querySelector("header nav")!.append(
  ...NOTEBOOKS.map(({ name, title }, i) => {
    const link = document.createElement("a");
    link.href = `./${name}.html`;
    link.textContent = `${i + 1}`;
    link.title = title;
    link.setAttribute("aria-label", `${i + 1}: ${title}`);
    if (name === here) link.setAttribute("aria-current", "page");
    return link;
  }),
);
document.querySelector("header nav")!.before(projectorButton(document.querySelector("main")!));
void showKept(document.querySelector("footer p")!);
