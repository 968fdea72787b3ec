/** The sheet a notebook is written on: the page's own colours and type, and the way to the other notebooks. */
import "../../src/app/font.css";
import { NOTEBOOKS } from "../../src/app/learn/contents.ts";
import { usePalettes } from "../../src/app/theme.ts";

usePalettes();

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
