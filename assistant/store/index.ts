export { makeCaseClock, systemClocks } from './clock.ts';
export type { CaseClock, CaseTime, Clocks } from './clock.ts';
export { openStore } from './open.ts';
export { Settings } from './settings.ts';
export { close, fingerprint } from './signing.ts';
export type { CaseSummary, CaseWriter, Store } from './store.ts';
export { download, exportCase, importCase } from './transfer.ts';
export type { Imported, RecordFile } from './transfer.ts';
export { StoreTrouble } from './trouble.ts';
