/** The words of every call. */
import { type Call, type CallId, TEETH } from '../../machines/contract/index.ts';
import { CATALOGUE } from './catalogue.ts';
import { shortTooth } from './numbers.ts';
import type { Priority } from './priority.ts';
import type { CallOf, Catalogue } from './wording.ts';

/** How urgent a call is, and how long it is worth saying. */
export interface CallTiming {
  readonly priority: Priority;
  /** Milliseconds after its due time when saying it makes no sense any more. */
  readonly deadlineMs: number;
  /** A newer call of this kind takes the place of the ones that wait. */
  readonly latestOnly: boolean;
  /** It waits for an answer. */
  readonly question: boolean;
}

const catalogue: Catalogue = CATALOGUE;

function piecesOf<Id extends CallId>(call: CallOf[Id] & { readonly id: Id }): readonly string[] {
  return catalogue[call.id].pieces(call);
}

/** The clips of a call, in order; each is a short sentence. Never empty. */
export function callPieces(call: Call): readonly string[] {
  const tooth = 'tooth' in call && call.id !== 'unit' ? call.tooth : undefined;
  return tooth === undefined ? piecesOf(call) : [shortTooth(tooth), ...piecesOf(call)];
}

/** A call as it is shown: exactly what is said. */
export function callText(call: Call): string {
  return callPieces(call).join(' ');
}

/** The urgency of a call. */
export function callTiming(call: Call): CallTiming {
  const { priority, deadlineMs, latestOnly } = catalogue[call.id];
  return { priority, deadlineMs, latestOnly, question: call.id.startsWith('ask-') };
}

/** Every piece any call can need, once each, in a stable order: what is rendered. */
export function allPieces(): readonly string[] {
  const every = [...TEETH.map(shortTooth), ...Object.values(catalogue).flatMap((one) => one.every)];
  return [...new Set(every)].toSorted();
}

/**
 * Every word any call can hold, lower case. A call sign must be none of them, or Seatcall would
 * address itself.
 */
export function callWords(): ReadonlySet<string> {
  return new Set(allPieces().flatMap((piece) => piece.toLowerCase().match(/[a-z']+/g) ?? []));
}
