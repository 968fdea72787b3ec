/**
 * A mouthpiece typed as a technician knows it: rim, cup, throat, backbore, length. What stands in the fields is read off the bore
 * that is there; "Draw" makes a bore of what was typed, which takes the table's place.
 */
import { css, html, LitElement, nothing } from "lit";
import { customElement, property, state } from "lit/decorators.js";
import {
  CUP_SHAPE,
  type CupShape,
  type MouthpieceShape,
  shapeOfMouthpiece,
} from "../../../setup/bore/mouthpieceShape.ts";
import type { Mouthpiece } from "../../../setup/setup.ts";
import { InputError, quoteTyped } from "../../../units/inputError.ts";
import { type LengthUnit, parseLengthMm } from "../../../units/length.ts";
import type { UsualLengthsMm } from "../../../units/otherUnit.ts";
import "../../form/entry.ts";
import type { WriteEvent } from "../../form/entry.ts";
import { lengthText } from "../../form/setup/edits.ts";
import { USUAL_MM } from "../../form/usualLengths.ts";
import { icon } from "../../shell/look/icon.ts";
import { editControls } from "./styles.ts";

const LENGTHS = {
  rimDiameterMm: ["Rim diameter", "Inside, where the lips lie.", USUAL_MM.rim],
  cupDepthMm: ["Depth of the cup", "Rim to the throat.", USUAL_MM.cupDepth],
  throatDiameterMm: ["Throat diameter", "The drill that just passes.", USUAL_MM.throat],
  throatLengthMm: ["Throat length", "Of its cylinder; 0 where there is none.", USUAL_MM.throatLength],
  exitDiameterMm: ["Backbore exit", "Bore at the shank’s end.", USUAL_MM.backboreExit],
  lengthMm: ["Length overall", "Rim to the shank’s end.", USUAL_MM.mouthpieceLength],
} as const;
type LengthName = keyof typeof LENGTHS;
const LENGTH_NAMES = Object.keys(LENGTHS) as readonly LengthName[];
type Name = LengthName | "cup" | "volumeMl";
/** Texts by field, with the unit they were typed in. */
export type TypedNumbers = Map<Name, { readonly text: string; readonly unit: LengthUnit }>;

export type DrawMouthpiece = (
  shape: MouthpieceShape,
  typed: { readonly isDepthTyped: boolean; readonly isAllTyped: boolean },
) => string;

const BY_VOLUME = "volume";
const CUPS = [
  [BY_VOLUME, "its volume"],
  ["bowl", "bowl"],
  ["between", "between bowl and V"],
  ["V", "V"],
] as const;

@customElement("annulus-mouthpiece-numbers")
export class MouthpieceNumbers extends LitElement {
  static override styles = [
    editControls,
    css`
      :host {
        display: grid;
        gap: 0.25rem;
      }
    `,
  ];

  @property({ attribute: false }) mouthpiece!: Mouthpiece;
  @property({ attribute: false }) unit: LengthUnit = "mm";
  /** Belongs to the owner, so that what was typed outlives this element. */
  @property({ attribute: false }) typed: TypedNumbers = new Map();
  /** Takes the shape in use, with which of its numbers were typed, and says what is in the way; empty when it is drawn. */
  @property({ attribute: false }) draw!: DrawMouthpiece;
  @state() private problem = "";

  override render() {
    const shape = shapeOfMouthpiece(this.mouthpiece);
    const cup = this.typed.get("cup")?.text ?? BY_VOLUME;
    const volume = "volumeMl" in shape.cup ? shape.cup.volumeMl.toFixed(2) : "";
    return html`
      <p class="hint">For a mouthpiece with no scanned profile. The cup and backbore are drawn smooth between these numbers.</p>
      ${LENGTH_NAMES.map((name) => {
        const [label, hint, usualMm] = LENGTHS[name];
        return this.#entry(name, label, hint, lengthText(shape[name], this.unit), this.unit, usualMm);
      })}
      <annulus-entry beside label="Cup by" data-name="cup" .choices=${CUPS} .text=${cup}
        @write=${({ detail }: WriteEvent) => this.#write("cup", detail.text)}></annulus-entry>
      ${cup === BY_VOLUME ? this.#entry("volumeMl", "Cup volume", "Water up to the rim, throat stopped.", volume, "ml") : nothing}
      ${this.problem ? html`<div class="problem"><p role="alert">${icon("warning")} ${this.problem}</p></div>` : nothing}
      <div><button type="button" data-testid="draw-mouthpiece" @click=${this.#drawIt}>Draw the bore from these</button></div>
    `;
  }

  #entry(
    name: Name,
    label: string,
    hint: string,
    standing: string,
    unit: string,
    usualMm: UsualLengthsMm | null = null,
  ) {
    const typed = this.typed.get(name);
    const text = typed && (name === "volumeMl" || typed.unit === this.unit) ? typed.text : standing;
    const shown = typed && text !== typed.text ? `${typed.text} ${typed.unit}` : text;
    return html`<annulus-entry beside data-name=${name} .label=${label} .hint=${hint} .unit=${unit} .usualMm=${usualMm} .text=${shown}
      @write=${({ detail }: WriteEvent) => this.#write(name, detail.text)}></annulus-entry>`;
  }

  #write(name: Name, text: string): void {
    this.typed.set(name, { text, unit: this.unit });
    this.problem = "";
    this.requestUpdate();
  }

  readonly #drawIt = (): void => {
    try {
      this.problem = this.draw(this.#shape(), {
        isDepthTyped: this.typed.has("cupDepthMm"),
        isAllTyped:
          LENGTH_NAMES.every((name) => this.typed.has(name)) &&
          (this.typed.has("volumeMl") || (this.typed.get("cup")?.text ?? BY_VOLUME) !== BY_VOLUME),
      });
    } catch (error) {
      if (!(error instanceof InputError || error instanceof RangeError)) throw error;
      this.problem = error.message;
    }
    if (this.problem) return;
    this.typed.clear();
    this.requestUpdate();
  };

  /** What stands in the fields. @throws InputError for a text that is none */
  #shape(): MouthpieceShape {
    const standing = shapeOfMouthpiece(this.mouthpiece);
    const lengths = { ...standing };
    for (const name of LENGTH_NAMES) {
      const typed = this.typed.get(name);
      if (typed) lengths[name] = parsed(LENGTHS[name][0], typed.text, typed.unit);
    }
    const cup = this.typed.get("cup")?.text;
    if (cup !== undefined && Object.hasOwn(CUP_SHAPE, cup))
      return { ...lengths, cup: { shape: cup as CupShape } };
    const typed = this.typed.get("volumeMl");
    return { ...lengths, cup: typed ? { volumeMl: parsedMl(typed.text) } : standing.cup };
  }
}

function parsed(label: string, text: string, unit: LengthUnit): number {
  try {
    return parseLengthMm(text, unit);
  } catch (error) {
    if (error instanceof InputError) throw new InputError(`${label}: ${error.message}`);
    throw error;
  }
}

/** A volume in ml; a decimal comma is understood. */
function parsedMl(text: string): number {
  const bare = text
    .trim()
    .replace(/\s*(ml|cm³|cc)$/i, "")
    .replace(",", ".");
  const volume = Number(bare);
  if (bare === "" || !(volume > 0 && volume < 1000))
    throw new InputError(`Cup volume: ${quoteTyped(text)} is no volume; give a number of ml, e.g. 1.3`);
  return volume;
}

declare global {
  interface HTMLElementTagNameMap {
    "annulus-mouthpiece-numbers": MouthpieceNumbers;
  }
}
