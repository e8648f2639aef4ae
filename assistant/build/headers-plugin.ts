import type { Connect, Plugin } from 'vite';
import { cacheControl, ISOLATION_HEADERS, META_POLICY, policyOf } from './policy.ts';

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
    const path = request.url ?? '/';
    response.setHeader('Content-Security-Policy', policyOf(path));
    response.setHeader('Cache-Control', cacheControl(path));
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
