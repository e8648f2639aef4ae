import type { ServerResponse } from 'node:http';
import type { Plugin } from 'vite';
import {
  loadFittedEncoder,
  loadGivenInWholeNumbers,
  loadTrimmedDecoder,
} from '../ear/neural/weights-node.ts';

/** Weights that are made of a package's, by the name that they are imported under. */
const MADE: Readonly<Record<string, () => Promise<Uint8Array>>> = {
  'encoder_fitted.onnx': loadFittedEncoder,
  'encoder_given.onnx': loadGivenInWholeNumbers,
  'decoder_trimmed.onnx': loadTrimmedDecoder,
};

async function answer(response: ServerResponse, make: () => Promise<Uint8Array>): Promise<void> {
  const bytes = await make();
  response.setHeader('Content-Type', 'application/octet-stream');
  response.end(bytes);
}

/**
 * Gives the address of the recogniser's encoders and decoder to whoever imports
 * `encoder_fitted.onnx?url`, `encoder_given.onnx?url` or `decoder_trimmed.onnx?url`: a file of the
 * build with its content's hash in its name, or what the developing server answers.
 */
export function weights(): Plugin {
  const made = Object.entries(MADE).map(([name, make]) => ({ id: `\0${name}`, name, make }));
  let emit = false;
  return {
    name: 'seatcall:weights',
    enforce: 'pre',
    configResolved(config) {
      emit = config.command === 'build';
    },
    resolveId(source) {
      return made.find(({ name }) => source.endsWith(`/${name}?url`))?.id ?? null;
    },
    async load(asked) {
      const found = made.find(({ id }) => id === asked);
      if (found === undefined) return null;
      const { name, make } = found;
      if (!emit) return `export default ${JSON.stringify(`/${name}`)};`;
      const file = this.emitFile({ type: 'asset', name, source: await make() });
      return `export default import.meta.ROLLUP_FILE_URL_${file};`;
    },
    configureServer(server) {
      for (const { name, make } of made) {
        server.middlewares.use(`/${name}`, (_request, response) => {
          answer(response, make).catch((error: unknown) => {
            response.statusCode = 500;
            response.end(String(error));
          });
        });
      }
    },
  };
}
