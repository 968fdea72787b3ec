/**
 * The live instrument: what its lips do, which gap it has, what it is heard to play. Starts silent; audio is opened by a hand
 * only. Everything but the sound works without it.
 */
import { createContext } from "@lit/context";
import { type LipsReport, MOST_MOUTH_PRESSURE } from "../../../../workers/voice/lipsProtocol.ts";
import type { Blowing } from "../../../lips/oscillator.ts";
import type { Performance } from "../../../study/feel/phrase.ts";
import type { GapSlots } from "../../../study/feel/slots.ts";
import type { VoiceAtGap } from "../../../study/feel/voice.ts";
import { Observable } from "../../state/observable.ts";
import { type Blind, coin, dealt, guessed, type Letter, soundOf, type Which } from "./blind.ts";
import type { Voice } from "./voice.ts";

export type Audio = "off" | "opening" | "on";
export type AtBoth<T> = Readonly<Record<Which, T>>;

export interface PlayState {
  readonly audio: Audio;
  /** Why there is no sound, in words. */
  readonly audioRefused: string | null;
  readonly isSounding: boolean;
  /** Which part of a performance is heard; null: none. */
  readonly performing: number | null;
  readonly blown: Blowing;
  /** Of full scale, 0 to 1. */
  readonly volume: number;
  readonly hears: Which;
  readonly blind: Blind | null;
  /** While it sounds. */
  readonly report: LipsReport | null;
  readonly voices: AtBoth<VoiceAtGap | null>;
  /** As last worked out, also of gaps that have moved since. */
  readonly slots: AtBoth<GapSlots | null>;
  /** Why there is no voice, in words. */
  readonly refused: string | null;
}

/** Quiet: a hand may turn it up. */
const FIRST_VOLUME = 0.2;
/** Until the notes are known: in the middle of a trumpet's range. */
const FIRST_BLOWN: Blowing = { lipHz: 430, mouthPressure: 6000 };
/** Players blow a note they play live a little harder than just clear of its threshold, so that it speaks at once. */
const LIVELY = 1.25;

const NONE = { chosen: null, reference: null };

export class PlaySession extends Observable<PlayState> {
  #context: AudioContext | null = null;
  #voice: Voice | null = null;
  #isTouched = false;

  constructor() {
    super({
      audio: "off",
      audioRefused: null,
      isSounding: false,
      performing: null,
      blown: FIRST_BLOWN,
      volume: FIRST_VOLUME,
      hears: "chosen",
      blind: null,
      report: null,
      voices: NONE,
      slots: NONE,
      refused: null,
    });
  }

  /** Which of the two gaps sounds. */
  get sounding(): Which {
    const { blind, hears } = this.parts;
    return blind ? soundOf(blind, blind.heard) : hears;
  }

  /** For filters: what the sound is made at. */
  get sampleRate(): number {
    return this.#context?.sampleRate ?? 48000;
  }

  /** To be called from a hand's own event, or the browser keeps it silent. */
  async openAudio(): Promise<void> {
    if (this.value.audio !== "off") return;
    this.#set({ audio: "opening", audioRefused: null });
    try {
      this.#context = new AudioContext({ latencyHint: "interactive" });
      void this.#context.resume();
      await this.#openVoice(this.#context);
    } catch {
      void this.#context?.close();
      this.#context = null;
      this.#set({
        audio: "off",
        audioRefused:
          "This browser makes no live sound here (it needs an audio worklet and permission to play); everything drawn and computed works without.",
      });
    }
  }

  async #openVoice(context: AudioContext): Promise<void> {
    const { Voice } = await import("./voice.ts");
    const { voices, blown, volume } = this.value;
    const at = voices[this.sounding];
    if (!at) throw new Error("there is no voice yet");
    const voice = await Voice.open(context, at, blown.lipHz, volume);
    voice.listen((news) => {
      if ("refused" in news) this.#set({ refused: news.refused });
      else if (this.value.isSounding) this.#set({ report: news });
    });
    this.#voice = voice;
    this.#set({ audio: "on" });
    // its gap may have moved meanwhile
    this.#sound();
  }

  start(): void {
    if (!this.#voice || this.value.isSounding) return;
    this.#endPerformance();
    void this.#context?.resume();
    this.#set({ isSounding: true });
    this.#voice.blow(this.value.blown);
    this.#voice.letOut(true);
  }

  stop(): void {
    this.#endPerformance();
    this.#set({ isSounding: false, report: null });
    this.#voice?.blow({ ...this.value.blown, mouthPressure: 0 });
    this.#voice?.letOut(false);
  }

  toggle(): void {
    if (this.value.isSounding || this.value.performing !== null) this.stop();
    else this.start();
  }

  /** Lips and breath, within what can be played. */
  blow(wanted: Partial<Blowing>): void {
    this.#isTouched = true;
    const { lipHz, mouthPressure } = { ...this.value.blown, ...wanted };
    const [low, high] = this.rangeHz;
    const blown = {
      lipHz: Math.min(high, Math.max(low, lipHz)),
      mouthPressure: Math.min(MOST_MOUTH_PRESSURE, Math.max(0, mouthPressure)),
    };
    this.#set({ blown });
    if (this.value.isSounding) this.#voice?.blow(blown);
  }

  /** The middle of note n's slot at the gap that is drawn, blown so that it speaks; above its resonance until that is known. */
  chooseNote(n: number): void {
    const { slots, voices, blown } = this.value;
    const slot = slots.chosen?.notes.find((note) => note.n === n)?.slot;
    const resonance = voices.chosen?.resonancesHz[n - 1];
    if (slot) this.blow({ lipHz: slot.centreHz, mouthPressure: LIVELY * slot.mouthPressure });
    else if (resonance) this.blow({ lipHz: 0.9 * resonance, mouthPressure: blown.mouthPressure });
  }

  /** Lip frequencies the instrument is played with here, Hz: from below its second resonance to its eleventh. */
  get rangeHz(): readonly [low: number, high: number] {
    // by its part: who draws with it is not drawn anew with every report of the sound
    const { chosen, reference } = this.parts.voices;
    const resonances = (reference ?? chosen)?.resonancesHz;
    if (!resonances || resonances.length < 3) return [150, 1300];
    const top = resonances[Math.min(10, resonances.length - 1)];
    return [toSemitone(0.75 * resonances[1], Math.floor), toSemitone(top, Math.ceil)];
  }

  setVolume(volume: number): void {
    this.#set({ volume });
    this.#voice?.setVolume(volume);
  }

  hear(which: Which): void {
    this.#set({ hears: which });
    this.#sound();
  }

  goBlind(): void {
    this.stop();
    this.#set({ blind: dealt(coin(), this.value.blind ?? undefined) });
    this.#sound();
  }

  hearBlind(heard: Letter): void {
    const { blind } = this.value;
    if (!blind) return;
    this.#set({ blind: { ...blind, heard } });
    this.#sound();
  }

  guess(letter: Letter): void {
    const { blind, voices } = this.value;
    if (!blind || !voices.chosen || !voices.reference) return;
    const wider = voices.chosen.gapMm > voices.reference.gapMm ? "chosen" : "reference";
    this.#set({ blind: guessed(blind, letter, wider) });
  }

  endBlind(): void {
    this.#set({ blind: null });
    this.#sound();
  }

  /** New voices; what sounds becomes the new one. */
  setVoices(voices: AtBoth<VoiceAtGap>): void {
    this.#set({ voices, refused: null });
    this.#sound();
  }

  setSlots(slots: AtBoth<GapSlots | null>): void {
    if (slots.chosen === this.value.slots.chosen && slots.reference === this.value.slots.reference) return;
    this.#set({ slots });
    if (!this.#isTouched && slots.chosen?.notes.some(({ n, slot }) => n === 4 && slot)) {
      this.chooseNote(4);
      this.#isTouched = false;
    }
  }

  refuse(refused: string): void {
    this.stop();
    this.#set({ refused, voices: NONE });
  }

  /** One after the other, each with its own gap's way to the ear. */
  async perform(
    parts: readonly { readonly performance: Performance; readonly voice: VoiceAtGap }[],
  ): Promise<void> {
    if (!this.#voice) return;
    this.stop();
    void this.#context?.resume();
    const sounds = parts.map(({ performance, voice }) => ({ ...performance, radiation: voice.radiation }));
    const isOver = await this.#voice.perform(sounds, (place) => this.#set({ performing: place }));
    // one that was cut short was ended by who cut it
    if (isOver) this.#set({ performing: null });
  }

  close(): void {
    this.stop();
    this.#voice = null;
    void this.#context?.close();
    this.#context = null;
    this.#set({ audio: "off", blind: null });
  }

  #endPerformance(): void {
    this.#voice?.stopPerforming();
    if (this.value.performing !== null) this.#set({ performing: null });
  }

  #sound(): void {
    const at = this.value.voices[this.sounding];
    if (at) this.#voice?.become(at);
  }

  #set(part: Partial<PlayState>): void {
    this.change({ ...this.value, ...part });
  }
}

/** To the nearest semitone that way, from 440 Hz. */
const toSemitone = (hz: number, round: (x: number) => number): number =>
  440 * 2 ** (round(12 * Math.log2(hz / 440)) / 12);

export const sessionContext = createContext<PlaySession>(Symbol("play"));
