/** Pitch of tones made of harmonics, which is known exactly: no octave errors, at any rate, in blocks of any length. */
import { describe, expect, it } from "vitest";
import { type Frame, FrameAnalyser } from "../../src/listen/frameAnalyser.ts";
import { cents } from "../../src/listen/track.ts";
import { expectAnyNoteHeard, steady } from "./anyNote.ts";
import { sound } from "./sounds.ts";

describe("pitch of a held note", () => {
  it("is within a fifth of a cent and never an octave off, from the tuba's pedals to a trumpet's top, whatever its harmonics", () => {
    expectAnyNoteHeard(8);
  });

  it("is heard without its first harmonics, as a small microphone gives a tuba", () => {
    const harmonics = [0.002, 0.03, 0.3, 0.8, 1, 0.9, 0.7, 0.5, 0.4, 0.3, 0.2, 0.1];
    const { notes } = steady(16000, sound(16000, 1.6, [{ hz: 43.65, fromS: 0.3, toS: 1.3, harmonics }]), 44);
    expect(notes.length).toBe(1);
    expect(Math.abs(cents(notes[0].hz, 43.65))).toBeLessThan(0.3);
  });

  it("is within a cent in noise 20 dB down", () => {
    for (const hz of [58.27, 233.08, 932.3]) {
      const { notes } = steady(16000, sound(16000, 2, [{ hz, fromS: 0.3, toS: 1.7 }], 0.01), hz);
      expect(notes.length).toBe(1);
      expect(Math.abs(cents(notes[0].hz, hz))).toBeLessThan(1);
    }
  });

  it("needs no note named", () => {
    const { notes } = steady(44100, sound(44100, 1.6, [{ hz: 311.1, fromS: 0.3, toS: 1.3 }]), null);
    expect(notes.length).toBe(1);
    expect(Math.abs(cents(notes[0].hz, 311.1))).toBeLessThan(0.3);
  });

  it("frames are the same for blocks of any length, and none is kept", () => {
    const samples = sound(48000, 0.5, [{ hz: 233, fromS: 0.1, toS: 0.4 }]);
    const framesIn = (blockLength: number) => {
      const frames: Frame[] = [];
      const analyser = new FrameAnalyser(48000, { lowestHz: 106, highestHz: 513 });
      for (let i = 0; i < samples.length; i += blockLength)
        analyser.push(samples.subarray(i, i + blockLength), (frame) => frames.push(frame));
      return frames;
    };
    const whole = framesIn(samples.length);
    expect(whole.length).toBeGreaterThan(80);
    for (const blockLength of [1, 128, 4097]) expect(framesIn(blockLength)).toEqual(whole);
  });

  it("a frame is told by the time its sound has passed and half a frame more", () => {
    const analyser = new FrameAnalyser(48000, { lowestHz: 212, highestHz: 1025 });
    let pushed = 0;
    let latest = 0;
    const samples = sound(48000, 1, [{ hz: 466, fromS: 0, toS: 1 }]);
    for (let i = 0; i < samples.length; i += 128) {
      pushed = (i + 128) / 48000;
      analyser.push(samples.subarray(i, i + 128), ({ atS }) => {
        latest = Math.max(latest, pushed - atS);
      });
    }
    expect(latest).toBeGreaterThan(0);
    expect(latest).toBeLessThan(0.02);
  });
});
