/**
 * A take for a cell's `view`: by the microphone, from a file, or the invented one, which is there from the beginning. All three go
 * the way that the task Listen goes (`src/app/tasks/listen/session.ts`); nothing leaves the machine and nothing is kept.
 */
import { html, nothing, render } from "lit";
import { hasMicrophones } from "../../src/app/sound/microphone.ts";
import { writtenHz } from "../../src/app/state/bench/listened.ts";
import type { Asked } from "../../src/app/tasks/listen/question.ts";
import { type Found, ListenSession } from "../../src/app/tasks/listen/session.ts";
import { stripOf } from "../../src/app/tasks/listen/strip.ts";
import { pitchStrip } from "../../src/charts/plots/listen/pitchStrip.ts";
import type { InstrumentKind } from "../../src/setup/instrumentKind.ts";
import { keptOnWords, NO_MICROPHONES } from "../../src/words/sound/microphoneWords.ts";
import type { Input } from "../paper/inputs.ts";
import { INVENTED_NAME, inventedFile } from "./invented.ts";

/** Notes to each side that a bend may break into. */
const NEIGHBOURS = 2;

export function askedOf(partial: number, instrument: InstrumentKind): Asked {
  const hz = writtenHz(instrument, partial);
  const first = Math.max(1, partial - NEIGHBOURS);
  return {
    question: { test: "slot", nearHz: hz, notesHz: [] },
    partial,
    toPartial: null,
    hz,
    partials: Array.from({ length: partial + NEIGHBOURS - first + 1 }, (_, i) => first + i),
  };
}

/** Whose take it is, as a caption says it. */
export const takeOrigin = ({ file }: Found): string =>
  file === INVENTED_NAME ? "an invented take, nobody's" : file === null ? "your take" : `your take, ${file}`;

/** Its value is what was found; null until something was. To be closed when its cell is computed anew. */
export function takeInput(
  partial: number,
  instrument: InstrumentKind,
): Input<Found | null> & { close(): void } {
  const asked = askedOf(partial, instrument);
  const session = new ListenSession();
  session.ask(asked);
  const block = Object.assign(document.createElement("fieldset"), {
    value: null as Found | null,
    close: () => {
      unsubscribe();
      session.close();
    },
  });
  block.className = "vote take";
  // of what it stands in: its own would grow with the strip
  const stripWidth = () => Math.min(640, (block.parentElement?.clientWidth || 640) - 36);
  const show = () => {
    const { phase, count, problem, keptOn, microphone } = session.value;
    const isOn = phase === "counting" || phase === "taking";
    const isBusy = phase === "hearing" || microphone === "asking";
    render(
      html`
        <legend>A take: hold the note, bend it slowly down until it breaks; again, and bend up. Three times each way.</legend>
        <div>
          <button type="button" ?disabled=${isBusy || (!hasMicrophones() && !isOn)} @click=${() => void (isOn ? session.stop() : session.listen())}>
            ${isOn ? "Stop" : "Listen by microphone"}
          </button>
          <button type="button" ?disabled=${isOn || isBusy} @click=${open}>Open a recording</button>
          <button type="button" ?disabled=${isOn || isBusy} @click=${invent}>Use the invented take</button>
        </div>
        <p role="status" data-testid="take-state">${stateWords(phase, count, block.value)}</p>
        ${problem ? html`<p role="alert">${problem}</p>` : nothing}
        ${keptOn.length > 0 ? html`<p>${keptOnWords(keptOn, "soft notes and the ends of bends")}</p>` : nothing}
        ${hasMicrophones() ? nothing : html`<p>${NO_MICROPHONES} Open a recording, or use the invented take.</p>`}
        ${isOn ? pitchStrip(stripOf(session.value, asked, instrument), { width: stripWidth(), height: 220, unit: "mm", instrument }).svg : nothing}
      `,
      block,
    );
  };
  const invent = () => void session.hear(inventedFile(asked.hz, partial));
  const open = () => {
    const chooser = Object.assign(document.createElement("input"), { type: "file", accept: "audio/*" });
    chooser.addEventListener("change", () => {
      const file = chooser.files?.[0];
      if (file) void session.hear(file);
    });
    chooser.click();
  };
  const unsubscribe = session.subscribe(({ found }) => {
    if (found && found !== block.value) {
      block.value = found;
      block.dispatchEvent(new Event("input", { bubbles: true }));
    }
    show();
  });
  show();
  invent();
  return block;
}

function stateWords(phase: string, count: number, found: Found | null): string {
  switch (phase) {
    case "counting":
      return `${count} … quiet, please: the room is measured.`;
    case "taking":
      return "Play. Press Stop when you are done.";
    case "hearing":
      return "Working it out…";
    default:
      return found ? `Below is ${takeOrigin(found)}.` : "Ready.";
  }
}
