export { makeCaseClock, systemClocks } from './clock.ts';
export type { CaseClock } from './clock.ts';
export { openStore } from './open.ts';
export { Settings } from './settings.ts';
export { close } from './signing.ts';
export type { CaseWriter, Store } from './store.ts';
export { download, exportCase, importCase } from './transfer.ts';
export { StoreTrouble } from './trouble.ts';
