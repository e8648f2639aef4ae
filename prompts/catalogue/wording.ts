import type { Call, CallId } from '../../machines/contract/index.ts';
import type { Priority } from './priority.ts';

/** How one kind of call is said. A piece is one clip: a short sentence, shown as it is said. */
export interface Wording<C extends Call> {
  readonly priority: Priority;
  /** Milliseconds after its due time when saying it makes no sense any more. */
  readonly deadlineMs: number;
  /** A newer call of this kind takes the place of the ones that wait. */
  readonly latestOnly: boolean;
  /** The clips of one call, in order; never empty. */
  readonly pieces: (call: C) => readonly string[];
  /** Every piece any call of this kind can need. */
  readonly every: readonly string[];
}

/** The shape of each call by its id. */
export type CallOf = { readonly [C in Call as C['id']]: C };

/** A wording for every call: a call without words does not compile. */
export type Catalogue = { readonly [Id in CallId]: Wording<CallOf[Id]> };

/** "porcelain etch" to "Porcelain etch." */
export function sentence(words: string): string {
  const end = /[.?]$/.test(words) ? '' : '.';
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}${end}`;
}
