/**
 * The instrument as it is being edited. What is refused stays as it was typed, with the reason; the setup in use is always one that
 * makes an instrument.
 */
import type { ReactiveController } from "lit";
import { mouthpieceOfShape } from "../../../setup/bore/mouthpieceShape.ts";
import { withProvenance } from "../../../setup/dimension/provenance.ts";
import type { Setup } from "../../../setup/setup.ts";
import type { LengthUnit } from "../../../units/length.ts";
import { type Outcome, problemText, shownTexts } from "../../form/setup/edits.ts";
import { cellAt, cellPath, type Part } from "../../form/setup/paths.ts";
import { standInNote } from "../../form/standInChoice.ts";
import type { PageElement } from "../../state/page.ts";
import { type Air, type AirKind, withAirKind } from "./airKind.ts";
import { afterRows, type Draft, flawDrafts, inUnit, standing, take } from "./drafts.ts";
import type { DrawMouthpiece } from "./mouthpieceNumbers.ts";
import type { ProfileActions } from "./profileTable.ts";
import { insertRowAfter, removeRow, replaceRows, withMouthpieceBore } from "./rows.ts";

export class EditedSetup implements ReactiveController {
  readonly #host: PageElement;
  /** What was refused. */
  #drafts: readonly Draft[] = [];
  #toCorrect: readonly Draft[] = [];
  #profileDrafts: Readonly<Record<Part, readonly Draft[]>> = { mouthpiece: [], leadpipe: [], body: [] };
  #shown: (path: string) => string = () => "";
  /** The air of either kind as the person had it. */
  readonly #airs = new Map<AirKind, Air>();

  constructor(host: PageElement) {
    this.#host = host;
    host.addController(this);
  }

  /** The instrument as it is. Where the slider stands is a view, which nothing here writes down. */
  get setup(): Setup {
    return this.#host.page.store.parts.document.setup;
  }

  get unit(): LengthUnit {
    return this.#host.page.store.parts.view.unit;
  }

  /** What was refused, and what of a kept setup is by now. */
  get toCorrect(): readonly Draft[] {
    return this.#toCorrect;
  }

  /** The refused texts of each profile; the same list while they are the same, so that its table is left alone. */
  get profileDrafts(): Readonly<Record<Part, readonly Draft[]>> {
    return this.#profileDrafts;
  }

  hostUpdate(): void {
    const { setup, unit } = this;
    this.#drafts = inUnit(standing(setup, this.#drafts), unit);
    this.#shown = shownTexts(setup, unit);
    const flaws = flawDrafts(setup, unit).filter(
      ({ path }) => !this.#drafts.some((draft) => draft.path === path),
    );
    this.#toCorrect = [...this.#drafts, ...flaws];
    this.#profileDrafts = {
      mouthpiece: this.#draftsOf("mouthpiece"),
      leadpipe: this.#draftsOf("leadpipe"),
      body: this.#draftsOf("body"),
    };
  }

  /** What stands in the setup at a place of its file. */
  shown(path: string): string {
    return this.#shown(path);
  }

  /** What is to be read there: as it was typed while that is refused. */
  text(path: string): string {
    return this.#drafts.find((one) => one.path === path)?.text ?? this.#shown(path);
  }

  /** Undo brings back what was open. */
  beginWith(setup: Setup): void {
    const { store } = this.#host.page;
    this.#leave(() => false);
    store.open(setup);
    store.say("note", standInNote(setup));
  }

  enter(path: string, text: string): void {
    const { setup, drafts } = take(this.setup, this.#drafts, { path, text, unit: this.unit });
    this.commit(setup);
    this.#draft(drafts);
  }

  takeBack(path: string): void {
    this.#leave((one) => one !== path);
  }

  chooseAir(kind: AirKind): void {
    const { air } = this.setup;
    this.#airs.set(air.kind, air);
    this.#leave((path) => !path.startsWith("air."));
    this.commit(withAirKind(this.setup, kind, this.#airs.get(kind)));
  }

  /** One undo step. The what-if stays unless the insertion or the depth was typed; then it is the gap they make. */
  commit(edited: Setup): void {
    if (edited !== this.setup) this.#host.page.store.setSetup(Object.freeze(edited));
  }

  /**
   * One undo step: the whole bore of the mouthpiece, and its cup depth. The bore is somebody's drawing once all its numbers were
   * typed; with one left as it stood, it is no better known than before.
   */
  readonly drawMouthpiece: DrawMouthpiece = (shape, { isDepthTyped, isAllTyped }) => {
    const outcome = withMouthpieceBore(this.setup, mouthpieceOfShape(shape), shape.cupDepthMm);
    if (!("setup" in outcome)) return problemText(outcome.problems, "mouthpiece.profile");
    this.#leave((path) => cellAt(path)?.part !== "mouthpiece" && path !== "mouthpiece.cupDepth");
    let { setup } = outcome;
    if (isDepthTyped) setup = withProvenance(setup, "measured", "mouthpiece.cupDepth");
    if (isAllTyped) setup = withProvenance(setup, "file", "mouthpiece.profile");
    this.commit(setup);
    return "";
  };

  readonly actions: ProfileActions = {
    enter: (cell, text) => this.enter(cellPath(cell), text),
    takeBack: (cell) => this.takeBack(cellPath(cell)),
    insertAfter: (bore, row) => this.#moved(insertRowAfter(this.setup, bore, row), bore, row + 1, 1),
    remove: (bore, row) => this.#moved(removeRow(this.setup, bore, row), bore, row, -1),
    replace: (bore, rowsMm, from) => {
      const outcome = replaceRows(this.setup, bore, rowsMm, from);
      if (!("setup" in outcome)) return outcome.problems;
      this.#leave((path) => cellAt(path)?.part !== bore);
      // a whole table of them comes from a file
      const isWhole = from === null && outcome.setup !== this.setup;
      this.commit(isWhole ? withProvenance(outcome.setup, "file", `${bore}.profile`) : outcome.setup);
      return [];
    },
  };

  /** Why a row cannot come or go; null once it has, and what was refused below it has moved along. */
  #moved(outcome: Outcome, bore: Part, row: number, by: 1 | -1): string | null {
    if (!("setup" in outcome)) return problemText(outcome.problems, `${bore}.profile`);
    this.commit(outcome.setup);
    this.#draft(afterRows(outcome.setup, this.#drafts, bore, row, by));
    return null;
  }

  #draftsOf(bore: Part): readonly Draft[] {
    const old = this.#profileDrafts[bore];
    const drafts = this.#toCorrect.filter(({ path }) => cellAt(path)?.part === bore);
    return drafts.length === old.length && drafts.every((draft, i) => draft === old[i]) ? old : drafts;
  }

  /** Of what was refused, only what stays. */
  #leave(stays: (path: string) => boolean): void {
    this.#draft(this.#drafts.filter(({ path }) => stays(path)));
  }

  #draft(drafts: readonly Draft[]): void {
    this.#drafts = drafts;
    this.#host.requestUpdate();
  }
}
