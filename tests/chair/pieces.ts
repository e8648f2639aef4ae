import { fileURLToPath } from 'node:url';
import { allPieces } from '../../prompts/catalogue/index.ts';
import { renderClips } from '../../prompts/render/clips.ts';

/** Milliseconds each piece of a call takes; renders what is missing. */
export async function pieceLengths(): Promise<ReadonlyMap<string, number>> {
  const folder = fileURLToPath(new URL('../../.cache/clips', import.meta.url));
  const { manifest } = await renderClips(allPieces(), folder);
  return new Map(Object.entries(manifest.clips).map(([piece, { ms }]) => [piece, ms]));
}
