import { fileURLToPath } from 'node:url';
import { preview } from 'vite';

/** The built page, served as `npm start` serves it, but on a port that is free. */
export interface Served {
  /** With its final slash; stays the same until closed, and so does the browser's store. */
  readonly url: string;
  readonly close: () => Promise<void>;
}

/** @throws Error when there is no build. */
export async function serveBuild(): Promise<Served> {
  const server = await preview({
    configFile: fileURLToPath(new URL('../../vite.config.ts', import.meta.url)),
    logLevel: 'error',
    preview: { host: '127.0.0.1', port: 0, strictPort: false, open: false },
  });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('no port');
  return { url: `http://127.0.0.1:${address.port}/`, close: () => server.close() };
}
