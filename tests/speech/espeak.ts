/** eSpeak NG under Node. GPL-3: it speaks in tests and is never shipped, nor is its sound. */
import load from '@echogarden/espeak-ng-emscripten';
import type { Synthesised } from '../../prompts/render/flite.ts';

const VARIANTS = '/usr/share/espeak-ng-data/voices/!v';
const WORDS_PER_MINUTE = 160;

let loaded: ReturnType<typeof load> | undefined;

/**
 * Says `text` in an accent (`en`, `en-us`, `en-gb-scotland`, …) by a speaker variant (`f2`, `m3`, …).
 * `stretch` 1.2 is a fifth slower than 160 words a minute.
 * @throws Error for an accent or variant that this build does not have.
 */
export async function espeak(
  text: string,
  accent: string,
  variant: string,
  stretch: number,
): Promise<Synthesised> {
  loaded ??= load();
  const module = await loaded;
  if (!module.FS.readdir(VARIANTS).includes(variant)) throw new Error(`no variant ${variant}`);
  const worker = new module.eSpeakNGWorker();
  if (worker.set_voice(`${accent}+${variant}`) !== 0) throw new Error(`no accent ${accent}`);
  worker.set_rate(Math.round(WORDS_PER_MINUTE / stretch));
  const pieces: Int16Array[] = [];
  worker.synthesize(text, (samples) => {
    if (samples !== null) pieces.push(samples);
    return false;
  });
  const pcm = new Float32Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    for (const sample of piece) pcm[at++] = sample / 32_768;
  }
  if (pcm.length === 0) throw new Error(`espeak gave no sound for "${text}"`);
  return { pcm, rate: worker.samplerate };
}
