/** eSpeak NG under Node. GPL-3: it speaks in tests and is never shipped, nor is its sound. */
import loadModule, { type EspeakModule } from '@echogarden/espeak-ng-emscripten';
import type { Synthesised } from '../../prompts/render/flite.ts';

const VARIANTS = '/usr/share/espeak-ng-data/voices/!v';
const WORDS_PER_MINUTE = 160;

interface Fresh {
  readonly module: EspeakModule;
  /** Its memory after its first words. */
  readonly memory: Uint8Array;
}

let fresh: Promise<Fresh> | undefined;

/**
 * What it says depends on what it has said before, by some samples; all it knows of that lies in its
 * memory. After its first words, since what those leave behind is kept outside as well.
 */
async function load(): Promise<Fresh> {
  const module = await loadModule();
  outOfTime(() => synthesised(module, 'a', 'en', 1));
  return { module, memory: module.HEAPU8.slice() };
}

interface Said {
  readonly pieces: readonly Int16Array[];
  readonly rate: number;
}

function synthesised(module: EspeakModule, text: string, voice: string, stretch: number): Said {
  const worker = new module.eSpeakNGWorker();
  if (worker.set_voice(voice) !== 0) throw new Error(`no voice ${voice}`);
  worker.set_rate(Math.round(WORDS_PER_MINUTE / stretch));
  const pieces: Int16Array[] = [];
  worker.synthesize(text, (samples) => {
    if (samples !== null) pieces.push(samples.slice());
    return false;
  });
  return { pieces, rate: worker.samplerate };
}

/** Does `act` at a moment that never passes: a breathy voice's noise is drawn by the time of day. */
function outOfTime<Result>(act: () => Result): Result {
  const { now } = Date;
  Date.now = () => 0;
  try {
    return act();
  } finally {
    Date.now = now;
  }
}

/**
 * Says `text` in an accent (`en`, `en-us`, `en-gb-scotland`, …) by a speaker variant (`f2`, `m3`, …).
 * `stretch` 1.2 is a fifth slower than 160 words a minute. The same words always give the same samples.
 * @throws Error for an accent or variant that this build does not have.
 */
export async function espeak(
  text: string,
  accent: string,
  variant: string,
  stretch: number,
): Promise<Synthesised> {
  fresh ??= load();
  const { module, memory } = await fresh;
  if (!module.FS.readdir(VARIANTS).includes(variant)) throw new Error(`no variant ${variant}`);
  const { pieces, rate } = outOfTime(() => {
    module.HEAPU8.fill(0, memory.length);
    module.HEAPU8.set(memory);
    return synthesised(module, text, `${accent}+${variant}`, stretch);
  });
  const pcm = new Float32Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    for (const sample of piece) pcm[at++] = sample / 32_768;
  }
  if (pcm.length === 0) throw new Error(`espeak gave no sound for "${text}"`);
  return { pcm, rate };
}
