import type { Connect, Plugin } from 'vite';
import { cacheControl, HEADER_POLICY, ISOLATION_HEADERS, META_POLICY } from './policy.ts';

/**
 * Sends the isolation headers while developing and in preview, and in the built page the content
 * policy too, both as header and as `<meta>`. The developing server injects styles and scripts of
 * its own, so only there the policy is off.
 */
export function headers(): Plugin {
  const isolate: Connect.NextHandleFunction = (_request, response, next) => {
    for (const [name, value] of Object.entries(ISOLATION_HEADERS)) response.setHeader(name, value);
    next();
  };
  const seal: Connect.NextHandleFunction = (request, response, next) => {
    response.setHeader('Content-Security-Policy', HEADER_POLICY);
    response.setHeader('Cache-Control', cacheControl(request.url ?? '/'));
    next();
  };
  return {
    name: 'seatcall:headers',
    configureServer(server) {
      server.middlewares.use(isolate);
    },
    configurePreviewServer(server) {
      server.middlewares.use(isolate);
      server.middlewares.use(seal);
    },
    transformIndexHtml(_html, context) {
      if (context.server !== undefined) return [];
      return [
        {
          tag: 'meta',
          attrs: { 'http-equiv': 'Content-Security-Policy', content: META_POLICY },
          injectTo: 'head-prepend',
        },
      ];
    },
  };
}
