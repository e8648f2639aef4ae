/** `npm run clips`: renders every call into .cache/clips; a second run does nothing. */
import { fileURLToPath } from 'node:url';
import { allPieces } from '../catalogue/index.ts';
import { renderClips } from './clips.ts';

const folder = fileURLToPath(new URL('../../.cache/clips', import.meta.url));
const started = performance.now();
const { manifest, made, removed } = await renderClips(allPieces(), folder);
if (made + removed > 0) {
  const seconds = ((performance.now() - started) / 1000).toFixed(1);
  const total = Object.values(manifest.clips).reduce((sum, { ms }) => sum + ms, 0);
  process.stdout.write(
    `clips: ${made} made, ${removed} removed, ${Object.keys(manifest.clips).length} in all, ` +
      `${Math.round(total / 1000)} s of speech, in ${seconds} s\n`,
  );
}
