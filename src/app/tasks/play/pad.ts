/**
 * The pad: pressed, it plays; where it is pressed sets the lips' pitch and the breath. A chart of its own kind: it has the
 * session to play, keeps touches from scrolling the page, and takes the keys that play.
 */
import { consume } from "@lit/context";
import { css } from "lit";
import { customElement } from "lit/decorators.js";
import { MOST_MOUTH_PRESSURE } from "../../../../workers/voice/lipsProtocol.ts";
import {
  type PadPoint,
  type PlayPad,
  placePoint,
  playPad,
  playPadTable,
} from "../../../charts/drawings/playPad.ts";
import { proportional } from "../../../charts/kit/figure.ts";
import { ChartElement } from "../../chart/chartElement.ts";
import type { PageFigure } from "../../chart/pageFigure.ts";
import { arrowMove } from "./keys.ts";
import { type PlaySession, sessionContext } from "./session.ts";

@customElement("annulus-play-pad")
export class PlayPadView extends ChartElement {
  @consume({ context: sessionContext })
  private readonly play!: PlaySession;
  override figure: PageFigure<PlayPad, PadPoint> = {
    name: "play-pad",
    label: "Pad: lip pitch across, mouth pressure upwards",
    about:
      "Across, the pitch the lips would buzz with alone; upwards, the pressure in the mouth. Modelled lips strike outwards and " +
      "sound above their own pitch. Each shaded column is a note's slot: it starts at its starting pressure, and is as wide as the lips may " +
      "wander with the note still the one that grows fastest, blown softly, as told under “The lips”; the lines " +
      "straight up from there are a guess. Thin lines are the resonances. A note that sounds goes on beyond its slot's edge.",
    caption: () =>
      "Press and move: it plays while pressed. Each shaded column is a note’s slot, from its starting pressure up. Keys: arrows, with Shift for more; Space; 2 to 9 and 0 for the notes; Escape stops.",
    keysHint:
      "Arrow keys move pitch by 10 cents and pressure by 0.1 kPa, with Shift by 50 cents and 0.5 kPa; Space sounds and stops; 2 to 9 and 0 choose a note",
    height: proportional(0.68, 280, 480),
    read: () => this.#pad(),
    draw: playPad,
    table: playPadTable,
    followed: () => {
      const { blown, isSounding } = this.play.parts;
      return { ...blown, isSounding };
    },
    follow: ({ drawing }, at) => placePoint(drawing, at),
    press: (down) => this.#onPress(down),
    key: (event) => this.#onKey(event),
  };

  static override styles = [
    ...[ChartElement.styles].flat(),
    css`
      .place > .drawing {
        touch-action: none;
        cursor: crosshair;
      }
    `,
  ];

  #pad(): PlayPad | null {
    const { voices, slots } = this.play.parts;
    const { chosen, reference } = voices;
    if (!chosen || !reference) return null;
    return {
      rangeHz: this.play.rangeHz,
      mostPressure: MOST_MOUTH_PRESSURE,
      chosenGapMm: chosen.gapMm,
      referenceGapMm: reference.gapMm,
      resonancesHz: chosen.resonancesHz,
      chosen: slots.chosen,
      reference: slots.reference,
    };
  }

  #onPress(down: PointerEvent): void {
    if (down.button !== 0 || !this.drawing) return;
    down.preventDefault();
    this.sheet.focus({ preventScroll: true });
    this.sheet.setPointerCapture(down.pointerId);
    const session = this.play;
    const wasSounding = session.value.isSounding;
    const up = new AbortController();
    const options = { signal: up.signal };
    this.#move(down);
    session.start();
    const end = () => {
      up.abort();
      if (!wasSounding) session.stop();
    };
    this.sheet.addEventListener("pointermove", (event) => this.#move(event), options);
    for (const over of ["pointerup", "pointercancel", "lostpointercapture"])
      this.sheet.addEventListener(over, end, options);
  }

  #move(event: PointerEvent): void {
    const [x, y] = this.placeOf(event);
    this.play.blow({
      lipHz: this.drawing!.x.invert(x),
      mouthPressure: 1000 * this.drawing!.y.invert(y),
    });
  }

  #onKey(event: KeyboardEvent): void {
    const move = arrowMove(event, this.play.parts.blown);
    if (!move) return;
    event.preventDefault();
    this.play.blow(move);
  }

  /** Gives the pad the keys. */
  hold(): void {
    this.sheet.focus({ preventScroll: true });
  }

  /** Space and numbers are for playing while the pad has the focus. */
  protected override firstUpdated(): void {
    this.sheet.dataset.play = "";
  }
}
