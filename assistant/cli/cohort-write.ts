/** Writes a share of a cohort's record files; runs as a process of its own, or within another. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { InventedKey } from './cohort-key.ts';
import { inventedRecord } from './cohort-record.ts';

/** Records `from`, `from + step`, ... below `count`. */
export const Share = z.strictObject({
  seed: z.number(),
  haste: z.number(),
  count: z.number(),
  from: z.number(),
  step: z.number(),
  out: z.string(),
});
export type Share = z.infer<typeof Share>;

/** The share's follow-up lines, each with its record's index, in order. */
export const Written = z.array(z.tuple([z.number(), z.string()]));
export type Written = z.infer<typeof Written>;

/**
 * Writes each record of the share as a file of its own.
 * @throws Error of the file system.
 */
export function writeShare({ seed, haste, count, from, step, out }: Share): Written {
  const key = new InventedKey(seed);
  const lines: Written = [];
  for (let index = from; index < count; index += step) {
    const { name, text, followUps } = inventedRecord({ seed, haste }, index, key);
    writeFileSync(join(out, name), text);
    for (const one of followUps) lines.push([index, JSON.stringify(one)]);
  }
  return lines;
}

// Forked by `cohort`: the share comes and its lines go as messages.
if (process.send !== undefined && process.argv[1] === fileURLToPath(import.meta.url)) {
  process.once('message', (message: unknown) => {
    // Ends only once the lines have gone out.
    process.send?.(writeShare(Share.parse(message)), () => process.disconnect());
  });
}
