import type { ServerResponse } from 'node:http';
import type { Plugin } from 'vite';
import { loadFittedEncoder } from '../ear/neural/weights-node.ts';

const NAME = 'encoder_fitted.onnx';

async function answer(response: ServerResponse): Promise<void> {
  const weights = await loadFittedEncoder();
  response.setHeader('Content-Type', 'application/octet-stream');
  response.end(weights);
}

/**
 * Gives the address of the encoder fitted to rooms to whoever imports `encoder_fitted.onnx?url`: a
 * file of the build with its content's hash in its name, or what the developing server answers.
 */
export function fittedEncoder(): Plugin {
  const id = `\0${NAME}`;
  let emit = false;
  return {
    name: 'seatcall:fitted-encoder',
    enforce: 'pre',
    configResolved(config) {
      emit = config.command === 'build';
    },
    resolveId(source) {
      return source.endsWith(`/${NAME}?url`) ? id : null;
    },
    async load(asked) {
      if (asked !== id) return null;
      if (!emit) return `export default ${JSON.stringify(`/${NAME}`)};`;
      const file = this.emitFile({ type: 'asset', name: NAME, source: await loadFittedEncoder() });
      return `export default import.meta.ROLLUP_FILE_URL_${file};`;
    },
    configureServer(server) {
      server.middlewares.use(`/${NAME}`, (_request, response) => {
        answer(response).catch((error: unknown) => {
          response.statusCode = 500;
          response.end(String(error));
        });
      });
    },
  };
}
