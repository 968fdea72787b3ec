/** What is to be played, and at which gap or under which code. */
import { html, nothing, type TemplateResult } from "lit";
import { TAKE_TESTS, type TakeTest } from "../../../listen/takeQuestion.ts";
import { instrumentOf } from "../../../setup/instrumentOf.ts";
import { nextGapMm } from "../../../study/listened/order.ts";
import { formatLength } from "../../../units/formatLength.ts";
import { noteText } from "../../../words/instruments.ts";
import { TEST_HOW, TEST_NAMES, TEST_TELLS } from "../../../words/listen/testWords.ts";
import { yourGap } from "../../form/gap/mountedGap.ts";
import type { NotesForm } from "../../form/notesForm.ts";
import { segments } from "../../shell/look/segments.ts";
import { LISTENED, listenedNotes, MOUNTED } from "../../state/notes/listen.ts";
import type { Document, Unit } from "../../state/state.ts";
import { placeOf, sealedTrials } from "./place.ts";
import { isHeard } from "./question.ts";

const TESTS = TAKE_TESTS.map((value) => ({ value, text: TEST_NAMES[value] }));

/** @param isBusy while a take is made nothing of it can be changed */
export function planPanel(form: NotesForm<"listen">, document: Document, isBusy: boolean): TemplateResult {
  const { notes } = form;
  const instrument = instrumentOf(document.setup);
  const { partial, toPartial } = listenedNotes(notes);
  const choices = Array.from({ length: LISTENED.most - LISTENED.least + 1 }, (_, i) => LISTENED.least + i)
    .filter((n) => isHeard(instrument, n))
    .map((n) => [n, noteText(n, instrument)] as const);
  return html`
    <section class="columns ruled" aria-label="What is played" ?inert=${isBusy}>
      <div class="stack">
        <h3>What is played</h3>
        ${segments<TakeTest>("Test", TESTS, notes.test, (test) => form.write({ test }))}
        <div class="pair">
          ${form.choice(["note"], notes.test === "slur" ? "One note" : "Note", choices, { testId: "listen-note" })}
          ${
            notes.test === "slur"
              ? form.choice(["toNote"], "Other note", [[null, "the next one up"], ...choices], {
                  testId: "listen-to-note",
                })
              : nothing
          }
        </div>
        <p class="muted" data-testid="listen-how"><b>${TEST_TELLS[notes.test]}</b> ${TEST_HOW[notes.test]}</p>
        <p class="muted">
          ${toPartial === null ? noteText(partial, instrument) : `${noteText(partial, instrument)} to ${noteText(toPartial, instrument)}`},
          open: no valve down, slide in first position.
        </p>
      </div>
      <div class="stack">
        <h3>At which gap</h3>
        ${place(form, document)}
        ${form.tick(["keepsSound"], "Keep the sound of the takes I keep, too (in this browser only)", "keeps-sound")}
      </div>
    </section>
  `;
}

function place(form: NotesForm<"listen">, document: Document): TemplateResult {
  const { notes, unit } = form;
  const sealed = sealedTrials(document);
  const trial = sealed.find(({ id }) => id === notes.trial) ?? null;
  const choice =
    sealed.length > 0
      ? form.choice(
          ["trial"],
          "The take belongs to",
          [
            ["", "a gap"],
            ...sealed.map(({ id, turns }) => [id, `a blind trial (${turns[0].code} …)`] as const),
          ],
          { testId: "listen-trial" },
        )
      : nothing;
  if (trial)
    return html`${choice}
    ${form.choice(
      ["code"],
      "Code mounted now",
      [
        ["", "choose"] as const,
        ...trial.turns.map(({ code }, i) => [code, `${code} (turn ${i + 1})`] as const),
      ],
      { testId: "listen-code" },
    )}
    <p class="muted">What the code stands for stays sealed: the take is told with its gap once the trial is opened.</p>`;
  return html`
    ${choice}
    ${form.entry(MOUNTED, ["gap"], placeOf(document, unit).problem, { testId: "listen-gap", hint: yourGap(document, unit).hint })}
    ${next(document, unit)}
  `;
}

/** Order and rest weigh as much as gaps do. */
function next({ notes: { listen } }: Document, unit: Unit): TemplateResult {
  const { partial, toPartial } = listenedNotes(listen);
  const own = listen.takes.filter(
    (take) => take.measured.test === listen.test && take.partial === partial && take.toPartial === toPartial,
  );
  const gapMm = nextGapMm(own.flatMap(({ gapMm }) => gapMm ?? []));
  return gapMm === null
    ? html`<p class="muted">Listen at two gaps or more, each twice at least, there and back again: lips warm up and tire.</p>`
    : html`<p class="muted" data-testid="next-gap">For a balanced order, next: <b>${formatLength(gapMm, unit)}</b>.</p>`;
}
