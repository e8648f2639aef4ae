/** Speech for the tests: any sentence, in a dozen synthesised voices, kept on disk once made. */
import { createHash } from 'node:crypto';
import { mkdir, readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { lexiconText } from '../../prompts/render/lexicon.ts';
import { decodeWav } from '../../prompts/render/wav.ts';
import { makeSpeech } from './speech-maker.ts';
import { VOICES, type VoiceName, type VoiceSpec } from './voices.ts';

export { VOICES, type VoiceName } from './voices.ts';

/** The rate of everything {@link speak} gives, in hertz. */
export const SPEECH_RATE = 16_000;

/** Raise it when the way a voice is made changes, so that no test hears yesterday's. */
const VERSION = 'flite 0.1.1, espeak 0.3.5, 2';
const CACHE = fileURLToPath(new URL('../../.cache/speech/', import.meta.url));

/** How it is said. */
export interface SpeakOptions {
  /** 1 is the voice's own pace, 1.2 a fifth slower. */
  readonly stretch?: number;
}

/**
 * `text` as `voice` says it: mono samples in -1..1 at {@link SPEECH_RATE}, with whatever short
 * silence the synthesiser leaves at its ends. The same words give the same samples, on any machine.
 * @throws Error when the synthesiser gives no sound.
 */
export async function speak(
  text: string,
  voice: VoiceName,
  options: SpeakOptions = {},
): Promise<Float32Array> {
  const spec: VoiceSpec = VOICES[voice];
  const stretch = options.stretch ?? 1;
  const lexicon = spec.engine === 'flite' ? lexiconText() : '';
  const key = JSON.stringify([VERSION, text, spec, stretch, lexicon]);
  const file = `${CACHE}${createHash('sha256').update(key).digest('hex').slice(0, 32)}.wav`;
  try {
    return decodeWav(await readFile(file)).pcm;
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'ENOENT')) throw error;
  }
  await mkdir(CACHE, { recursive: true });
  await makeSpeech({ text, spec, stretch, rate: SPEECH_RATE, file });
  return decodeWav(await readFile(file)).pcm;
}
