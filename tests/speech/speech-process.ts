/**
 * Makes speech for a test process and ends with it. Apart, because Node 20 was killed by the
 * system (SIGSEGV) when a hundred runs of the WASI synthesiser shared a process with the recogniser.
 */
import { rename, writeFile } from 'node:fs/promises';
import { z } from 'zod';
import { FLITE_VOICES, synthesise } from '../../prompts/render/flite.ts';
import { encodeWav } from '../../prompts/render/wav.ts';
import { espeak } from './espeak.ts';
import { resample } from './resample.ts';

const Order = z.object({
  id: z.number(),
  text: z.string(),
  spec: z.discriminatedUnion('engine', [
    z.object({ engine: z.literal('flite'), voice: z.enum(FLITE_VOICES) }),
    z.object({ engine: z.literal('espeak'), accent: z.string(), variant: z.string() }),
  ]),
  stretch: z.number().positive(),
  rate: z.number().positive(),
  file: z.string(),
});
/** What is to be said, how, and the WAV file to write it to. */
export type Order = z.infer<typeof Order>;

async function make({ text, spec, stretch, rate, file }: Order): Promise<void> {
  const made =
    spec.engine === 'flite'
      ? await synthesise(text, spec.voice, { stretch })
      : await espeak(text, spec.accent, spec.variant, stretch);
  // Two test processes may make the same words at once: neither may read the other's half file.
  const draft = `${file}.${process.pid}`;
  await writeFile(draft, encodeWav({ pcm: resample(made.pcm, made.rate, rate), rate }));
  await rename(draft, file);
}

process.on('message', (message) => {
  const order = Order.parse(message);
  make(order).then(
    () => process.send?.({ id: order.id, error: null }),
    (error: unknown) =>
      process.send?.({
        id: order.id,
        error: error instanceof Error ? error.message : String(error),
      }),
  );
});
