/** One rendering process: makes its share of the clips and ends. */
import { rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { FLITE_VOICES, synthesise } from './flite.ts';
import { toClip } from './trim.ts';
import { encodeWav } from './wav.ts';

const Share = z.object({
  jobs: z.array(z.object({ piece: z.string(), file: z.string() })),
  folder: z.string(),
  voice: z.enum(FLITE_VOICES),
  stretch: z.number().positive(),
});

async function make({ jobs, folder, voice, stretch }: z.infer<typeof Share>): Promise<void> {
  for (const { piece, file } of jobs) {
    const { pcm, rate } = await synthesise(piece, voice, { stretch });
    // A clip is whole or not there: the next run trusts whatever has its name.
    const draft = join(folder, `${file}.part`);
    await writeFile(draft, encodeWav({ pcm: toClip(pcm, rate), rate }));
    await rename(draft, join(folder, file));
  }
  process.disconnect();
}

process.once('message', (message) => {
  make(Share.parse(message)).catch((error: unknown) => {
    process.stderr.write(`${String(error)}\n`);
    process.exit(1);
  });
});
