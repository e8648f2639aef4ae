/** A page that does nothing but take the microphone's sound: what the browser itself needs for it. */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { CONSTRAINTS, LATENCY_S } from '../../assistant/ear/microphone.ts';
import { SAMPLE_RATE } from '../../assistant/ear/port.ts';

const ASSETS = fileURLToPath(new URL('../../dist/assets/', import.meta.url));

declare global {
  // Kept, so that the sound goes on; inside `evaluate` only.
  var kept: unknown;
}

/**
 * Opens it beside `page`, which listens, with the same worklet and settings, and closes `page`. What
 * the worklet hands over is left lying.
 * @throws Error when the built page has no worklet.
 */
export async function takeSoundAlone(page: Page): Promise<Page> {
  const worklet = readdirSync(ASSETS).find((name) => /^microphone\.worklet-.*\.js$/u.test(name));
  if (worklet === undefined) throw new Error('the built page has no worklet');
  const alone = await page.context().newPage();
  await alone.goto(new URL('/notices.txt', page.url()).href);
  await page.close();
  await alone.evaluate(
    async ({ url, audio, context }) => {
      const stream = await navigator.mediaDevices.getUserMedia({ audio });
      const opened = new AudioContext(context);
      await opened.audioWorklet.addModule(url);
      const sender = new AudioWorkletNode(opened, 'frame-sender', {
        numberOfOutputs: 0,
        processorOptions: { whole: false },
      });
      opened.createMediaStreamSource(stream).connect(sender);
      globalThis.kept = [stream, sender];
    },
    {
      url: `/assets/${worklet}`,
      audio: CONSTRAINTS,
      context: { sampleRate: SAMPLE_RATE, latencyHint: LATENCY_S },
    },
  );
  return alone;
}
