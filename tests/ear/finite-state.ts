/**
 * The recogniser port on `soundswallower`'s finite-state decoder: an engine of another kind than
 * the built-in one, to show that the ear asks nothing of an engine that the port does not say.
 */
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import createModule, { type SoundSwallowerModule } from 'soundswallower';
import type { Heard, Pcm, Recogniser } from '../../assistant/ear/port.ts';
import { parseJsgf } from '../../prompts/grammar/index.ts';
import { chance } from '../speech/noise.ts';

type Decoder = InstanceType<SoundSwallowerModule['Decoder']>;

class FiniteStateRecogniser implements Recogniser {
  readonly #decoder: Decoder;

  constructor(decoder: Decoder) {
    this.#decoder = decoder;
  }

  async load(grammar: string): Promise<void> {
    parseJsgf(grammar);
    this.#decoder.set_grammar(grammar);
  }

  async hear(segment: Pcm): Promise<Heard | null> {
    const next = chance(1);
    // Digital silence breaks its features; a little dither does not.
    const dithered = segment.map((sample) => sample + (next() - 0.5) / 16_384);
    this.#decoder.start();
    this.#decoder.process_audio(dithered, false, true);
    this.#decoder.stop();
    const phrase = this.#decoder.get_text().toLowerCase();
    return phrase === '' ? null : { phrase, score: 0.5, sure: true };
  }

  async close(): Promise<void> {
    this.#decoder.delete();
  }
}

/** Opens the engine with its English model; its vocabulary is that model's dictionary. */
export async function createFiniteStateRecogniser(): Promise<Recogniser> {
  const module = await createModule();
  const engine = createRequire(import.meta.url).resolve('soundswallower');
  const decoder = new module.Decoder({
    hmm: join(dirname(engine), 'model/en-us'),
    samprate: 16_000,
    loglevel: 'ERROR',
  });
  await decoder.initialize();
  return new FiniteStateRecogniser(decoder);
}
