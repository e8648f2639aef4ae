import { SOURCES } from '../trade/index.ts';
import type { Origin } from '../trade/index.ts';

/** Whose number it is, in words; a number of the practice's own names what its note names. */
export const cite = (from: Origin & { readonly note?: string }): string => {
  if (from.mark === 'shelf') return `${from.note ?? ''} (shelf)`;
  return `${SOURCES[from.source].cite}${from.mark === 'memory' ? ' (from memory)' : ''}`;
};
