import { afterEach, expect, it } from 'vitest';
import { rms } from '../speech/noise.ts';
import { Operatory } from './harness.ts';
import { PLAYED_RATE } from './room.ts';

let operatory: Operatory | undefined;
afterEach(() => operatory?.close());

/** Plays a tone and says what the microphone heard of it, in decibels. Runs in the page. */
async function beep(): Promise<{ readonly atMs: number; readonly heardDb: number }> {
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
  });
  const context = new AudioContext();
  await context.resume();
  const meter = new AnalyserNode(context, { fftSize: 2048 });
  context.createMediaStreamSource(stream).connect(meter);
  const tone = new OscillatorNode(context, { frequency: 800 });
  tone.connect(new GainNode(context, { gain: 0.5 })).connect(context.destination);
  const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
  await pause(500);
  tone.start();
  const atMs = Date.now();
  await pause(600);
  const block = new Float32Array(2048);
  meter.getFloatTimeDomainData(block);
  tone.stop();
  await pause(500);
  const power = block.reduce((sum, sample) => sum + sample * sample, 0) / block.length;
  return { atMs, heardDb: 10 * Math.log10(power + 1e-12) };
}

// On a busy machine the recorder of the tests misses blocks, and the tone comes out shorter than it was.
it('keeps what the page plays, and when', { retry: 3 }, async () => {
  operatory = await Operatory.open();
  const { atMs, heardDb } = await operatory.page.evaluate(beep);
  const { pcm, fromMs } = await operatory.played();
  const first = pcm.findIndex((sample) => Math.abs(sample) > 0.1);
  const last = pcm.findLastIndex((sample) => Math.abs(sample) > 0.1);
  expect(rms(pcm.subarray(first, last))).toBeCloseTo(0.5 / Math.SQRT2, 1);
  expect((last - first) / PLAYED_RATE).toBeCloseTo(0.6, 1);
  expect(Math.abs(fromMs + (first * 1000) / PLAYED_RATE - atMs)).toBeLessThan(100);
  expect(heardDb).toBeLessThan(-50);
});

it('gives it back to the microphone, as softly as asked', async () => {
  operatory = await Operatory.open({ room: { echoDb: -20 } });
  const { heardDb } = await operatory.page.evaluate(beep);
  // The tone's own level is -9 dB.
  expect(heardDb).toBeGreaterThan(-31);
  expect(heardDb).toBeLessThan(-27);
});
