import { createReadStream, existsSync, statSync } from 'node:fs';
import { cp } from 'node:fs/promises';
import { join, normalize, resolve, sep } from 'node:path';
import type { Plugin } from 'vite';

const TYPES: Readonly<Record<string, string>> = {
  json: 'application/json',
  wav: 'audio/wav',
  webm: 'audio/webm',
  ogg: 'audio/ogg',
  mp3: 'audio/mpeg',
};

/**
 * Serves the rendered clips in `folder` at `/clips/`: from there while developing, copied into
 * the build's `clips/` otherwise. The clips are data, hundreds of them, so they stay out of the
 * module graph.
 * @throws Error at build when the clips were not rendered.
 */
export function clips(folder: string): Plugin {
  const root = resolve(folder);
  let outDir = '';
  let emit = false;
  return {
    name: 'seatcall:clips',
    configResolved(config) {
      outDir = resolve(config.root, config.build.outDir);
      emit = config.command === 'build';
    },
    configureServer(server) {
      server.middlewares.use('/clips', (request, response, next) => {
        const path = decodeURIComponent((request.url ?? '').split('?')[0] ?? '');
        const file = normalize(join(root, path));
        if (!file.startsWith(root + sep) || !existsSync(file) || !statSync(file).isFile()) {
          next();
          return;
        }
        const type = TYPES[file.slice(file.lastIndexOf('.') + 1)] ?? 'application/octet-stream';
        response.setHeader('Content-Type', type);
        createReadStream(file).pipe(response);
      });
    },
    async writeBundle() {
      if (!emit) return;
      if (!existsSync(root)) throw new Error(`no clips in ${root}: run npm run clips`);
      await cp(root, join(outDir, 'clips'), { recursive: true });
    },
  };
}
