/**
 * One figure at a time over the whole screen, to be read from the back of a hall. The sheet is made as narrow as a figure has to
 * be drawn for its smallest type to become 30 px on a screen of 1920 (`paper.css`), so that every cell draws its own anew.
 */
import { html, render } from "lit";
import { PROJECTOR_KEYS } from "../../src/words/teacherNotes.ts";
import { PROJECTED } from "./figure.ts";

/** A way in at the head of the page; arrow keys then lead from figure to figure. */
export function projectorButton(sheet: HTMLElement): HTMLButtonElement {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "to-projector";
  button.textContent = "Show on a projector";
  button.addEventListener("click", () => project(sheet));
  return button;
}

function project(sheet: HTMLElement): void {
  const root = document.documentElement;
  const from = scrollY;
  const bar = document.createElement("div");
  bar.className = "projector";
  const leaving = new AbortController();
  const figures = () => [...sheet.querySelectorAll("figure")].filter((one) => !one.closest(".covered"));
  // the first that is on the screen, or comes after it
  let at = Math.max(
    0,
    figures().findIndex((one) => one.getBoundingClientRect().bottom > 120),
  );

  const show = () => {
    const all = figures();
    at = Math.min(Math.max(0, at), all.length - 1);
    for (const one of sheet.querySelectorAll("figure.projected"))
      if (one !== all[at]) one.classList.remove("projected");
    const shown = all[at];
    if (!shown) return;
    if (!shown.classList.contains("projected")) shown.classList.add("projected");
    const slider = sliderBefore(sheet, shown);
    const note = shown.dataset.teacher || shown.querySelector("figcaption")?.textContent || "";
    render(
      html`
        <header>
          <h2>${headingBefore(sheet, shown)}</h2>
          <span class="moved">${slider ? `${slider.querySelector(".label")?.textContent}: ${slider.querySelector(".value")?.textContent}` : ""}</span>
        </header>
        <footer>
          <p class="teacher">${note}</p>
          <nav aria-label="Figures">
            <span>${slider ? PROJECTOR_KEYS.replace("gap", "slider") : "← → figure · Esc back"}</span>
            <button type="button" aria-label="Figure before" ?disabled=${at === 0} @click=${() => turn(-1)}>‹</button>
            <span class="place">${at + 1} of ${all.length}</span>
            <button type="button" aria-label="Next figure" ?disabled=${at === all.length - 1} @click=${() => turn(1)}>›</button>
            <button type="button" aria-label="Back to the page" @click=${() => leave()}>×</button>
          </nav>
        </footer>
      `,
      bar,
    );
  };
  const turn = (by: number) => {
    at += by;
    show();
  };
  const leave = () => {
    leaving.abort();
    redrawn.disconnect();
    root.classList.remove(PROJECTED);
    const shown = figures()[at];
    for (const one of sheet.querySelectorAll("figure.projected")) one.classList.remove("projected");
    bar.remove();
    if (shown) shown.scrollIntoView({ block: "center" });
    else scrollTo(0, from);
  };
  /** A cell that is computed anew puts a new figure in the old one's place. */
  const redrawn = new MutationObserver(show);
  root.classList.add(PROJECTED);
  document.body.append(bar);
  show();
  redrawn.observe(sheet, { childList: true, subtree: true, characterData: true });
  addEventListener(
    "keydown",
    (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const by = TURNS[event.key];
      const step = STEPS[event.key];
      if (by === undefined && step === undefined && event.key !== "Escape") return;
      event.preventDefault();
      event.stopPropagation();
      if (event.key === "Escape") leave();
      else if (by !== undefined) turn(by);
      else moveSlider(sheet, figures()[at], step);
    },
    { capture: true, signal: leaving.signal },
  );
}

const TURNS: Readonly<Record<string, number>> = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 };
const STEPS: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowDown: -1 };
/** Of the slider's whole way: its own steps are fine ones. */
const SHARE = 0.05;

function moveSlider(sheet: HTMLElement, shown: Element | undefined, direction: number): void {
  const input = shown && sliderBefore(sheet, shown)?.querySelector("input");
  if (!input) return;
  const [least, most, step] = [input.min, input.max, input.step].map(Number);
  input.valueAsNumber += direction * Math.max(step, Math.round((SHARE * (most - least)) / step) * step);
  input.dispatchEvent(new Event("input", { bubbles: true }));
}

/** The last of some above a figure. */
const lastBefore = <E extends Element>(found: NodeListOf<E>, place: Element): E | undefined =>
  [...found].filter((one) => one.compareDocumentPosition(place) & Node.DOCUMENT_POSITION_FOLLOWING).pop();

/** Of the last cell with sliders above a figure: the gap's if it has one, else the last. */
function sliderBefore(sheet: HTMLElement, place: Element): HTMLElement | undefined {
  const last = lastBefore(sheet.querySelectorAll<HTMLElement>(".slider"), place);
  const gap = last?.closest(".observablehq--cell")?.querySelector('input[name="gap"]');
  return gap?.closest<HTMLElement>(".slider") ?? last;
}

const headingBefore = (sheet: HTMLElement, place: Element) =>
  lastBefore(sheet.querySelectorAll("h1, h2, h3"), place)?.textContent ?? "";
