import type { RefusalId } from '../../machines/contract/index.ts';

/** What laws 2 and 3 refuse, written out here a second time: no override may ever answer one of these. */
export const NEVER: readonly RefusalId[] = [
  'in-mouth',
  'agent-still-on',
  'etch-not-etchable',
  'acid-before-primer',
  'silane-on-zirconia',
  'abrade-glass',
];
