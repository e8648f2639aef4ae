import { z } from 'zod';

/** Where a clip lies and how long it takes, its closing gap included. */
export interface Clip {
  readonly url: string;
  readonly ms: number;
}

/** Every clip there is, by the piece of a call it says. */
export type Clips = ReadonlyMap<string, Clip>;

/** The part of the manifest the page reads; the renderer's own schema is stricter. */
const Manifest = z.object({
  format: z.literal('seatcall-clips/1'),
  clips: z.record(z.string(), z.object({ file: z.string(), ms: z.number().positive() })),
});

/** The clips a manifest lists, under the folder at `base` (ending in a slash). */
export function clipsOf(manifest: unknown, base: string): Clips {
  const { clips } = Manifest.parse(manifest);
  return new Map(
    Object.entries(clips).map(([piece, { file, ms }]) => [piece, { url: base + file, ms }]),
  );
}

/**
 * Reads the manifest of the clips under `base` (ending in a slash).
 * @throws Error when it is not there or is not one.
 */
export async function loadClips(base: string): Promise<Clips> {
  const response = await fetch(`${base}manifest.json`);
  if (!response.ok) throw new Error(`no clips at ${base}: ${response.status}`);
  return clipsOf(await response.json(), base);
}
