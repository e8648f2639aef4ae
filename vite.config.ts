import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { clips } from './assistant/build/clips-plugin.ts';
import { headers } from './assistant/build/headers-plugin.ts';
import { notices } from './assistant/build/notices-plugin.ts';
import { weights } from './assistant/build/weights-plugin.ts';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** The one port the built page is served on: the browser keeps records by origin, port included. */
export const PORT = 4170;

export default defineConfig({
  root: here('assistant'),
  // One page and no routes: what is not there is not found, a missing clip above all.
  appType: 'mpa',
  cacheDir: here('.cache/vite'),
  // No folder is copied blindly into the build; the clips plugin copies what it means to.
  publicDir: false,
  plugins: [headers(), weights(), clips(here('.cache/clips')), notices(here('.'))],
  assetsInclude: ['**/*.onnx'],
  resolve: {
    // Without its sound in space, which no call has.
    alias: [{ find: /^howler$/u, replacement: 'howler/dist/howler.core.min.js' }],
  },
  worker: {
    format: 'es',
    // The recogniser's vocabulary is part of its weights, though its package has it as a script:
    // apart, it is counted with them and stays cached when the program changes.
    rolldownOptions: {
      checks: { pluginTimings: false },
      output: {
        // Annotations for bundlers are of no use to the browser.
        comments: { annotation: false },
        codeSplitting: {
          groups: [{ name: 'vocabulary', test: /llama-tokenizer-js|kept-tokens/u }],
        },
      },
    },
  },
  build: {
    outDir: here('dist'),
    emptyOutDir: true,
    target: 'chrome120',
    // Every browser of that age preloads modules by itself.
    modulePreload: { polyfill: false },
    // Inlined assets would be data: URLs, which the recogniser's workers cannot cache.
    assetsInlineLimit: 0,
    license: { fileName: 'licences.md' },
    sourcemap: true,
    // The opt-in wake-word engine carries its WebAssembly inside itself.
    chunkSizeWarningLimit: 3500,
    rolldownOptions: {
      checks: { pluginTimings: false },
      output: {
        // What the page and its review worker share, and nothing that touches the page.
        codeSplitting: {
          groups: [
            {
              name: 'core',
              test: /\/machines\/|\/store\/signing|\/node_modules\/(?:zod|xstate|@noble|canonicalize)\//u,
            },
          ],
        },
      },
    },
  },
  server: { port: PORT + 1, strictPort: true, fs: { allow: [here('.')] } },
  preview: { port: PORT, strictPort: true },
});
