import { z } from 'zod';

/** What was rendered: each piece of the catalogue, its file beside the manifest, its length. */
export const Manifest = z.strictObject({
  format: z.literal('seatcall-clips/1'),
  voice: z.string(),
  /** Samples a second of every clip. */
  rate: z.number().int().positive(),
  clips: z.record(
    z.string(),
    z.strictObject({
      file: z.string(),
      /** Length of the clip in milliseconds, the gap to the next piece included. */
      ms: z.number().positive(),
    }),
  ),
});
export type Manifest = z.infer<typeof Manifest>;

/** The manifest's name in the folder of clips. */
export const MANIFEST_FILE = 'manifest.json';
