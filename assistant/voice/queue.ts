/**
 * Which call is said when: a pure queue in made time. Each function takes a state and gives a new
 * one with the effects to carry out. All times are milliseconds on one monotonic clock.
 *
 * One call at a time. A stop or an alarm cuts any lower call at once; a timer cuts a step or
 * chatter at its due time; anything else higher waits for the end of the piece being said. A call
 * that lost the voice goes back in the queue until its expiry, except chatter.
 */
import { type Priority, rankOf } from '../../prompts/catalogue/priority.ts';

/** One call, ready to be said. */
export interface Utterance {
  /** Equal keys are the same call. */
  readonly key: string;
  readonly priority: Priority;
  /** The clips that make it up, in order; never empty. */
  readonly pieces: readonly string[];
  /** What is shown, and what the ear guards against. */
  readonly text: string;
  /** When it should start. */
  readonly dueMs: number;
  /** It is not started after this. */
  readonly expiresMs: number;
  /** How long saying all of it takes. */
  readonly lengthMs: number;
}

/** The call being said, and which of its pieces. */
export interface Speaking<U extends Utterance = Utterance> {
  readonly utterance: U;
  readonly piece: number;
}

/** The queue: what is being said, and what waits, in order of arrival. */
export interface QueueState<U extends Utterance = Utterance> {
  readonly speaking: Speaking<U> | null;
  readonly waiting: readonly U[];
}

/** What the caller must do, in order. */
export type QueueEffect<U extends Utterance = Utterance> =
  | { readonly type: 'start'; readonly utterance: U }
  | { readonly type: 'play'; readonly piece: string }
  | { readonly type: 'cut'; readonly utterance: U }
  | { readonly type: 'said'; readonly utterance: U }
  | {
      readonly type: 'dropped';
      readonly utterance: U;
      readonly why: 'late' | 'merged' | 'cancelled';
    };

/** A new state and the effects on the way to it. */
export interface QueueStep<U extends Utterance = Utterance> {
  readonly state: QueueState<U>;
  readonly effects: readonly QueueEffect<U>[];
}

/** A queue with nothing in it. */
export const emptyQueue: QueueState<never> = { speaking: null, waiting: [] };

/** A step or chatter is not begun when a timer is due within this and would cut it. */
export const HOLD_MS = 1_200;

const isDue = (utterance: Utterance, nowMs: number): boolean => utterance.dueMs <= nowMs;

const rank = (utterance: Utterance): number => rankOf(utterance.priority);

/** The due call to say next: the most urgent, then the earliest due, then the first come. */
function nextOf<U extends Utterance>(waiting: readonly U[], nowMs: number): U | undefined {
  let best: U | undefined;
  for (const utterance of waiting) {
    if (!isDue(utterance, nowMs)) continue;
    const gap = best === undefined ? -1 : rank(utterance) - rank(best);
    if (gap < 0 || (gap === 0 && best !== undefined && utterance.dueMs < best.dueMs)) {
      best = utterance;
    }
  }
  return best;
}

/** The due time of the first timer that would cut `utterance` soon after it began. */
function timerAhead<U extends Utterance>(
  state: QueueState<U>,
  utterance: U,
  nowMs: number,
): number | undefined {
  if (rank(utterance) <= rankOf('timer')) return undefined;
  const dues = state.waiting
    .filter((other) => other.priority === 'timer' && !isDue(other, nowMs))
    .map((other) => other.dueMs)
    .filter((due) => due < nowMs + Math.min(HOLD_MS, utterance.lengthMs));
  return dues.length === 0 ? undefined : Math.min(...dues);
}

/** Whether `next` takes the voice from `current` without waiting for the piece to end. */
function cutsAtOnce(next: Utterance, current: Utterance): boolean {
  if (rank(next) >= rank(current)) return false;
  return next.priority !== 'refusal' && rank(next) <= rankOf('timer');
}

function dropLate<U extends Utterance>(state: QueueState<U>, nowMs: number): QueueStep<U> {
  const late = state.waiting.filter((utterance) => utterance.expiresMs < nowMs);
  if (late.length === 0) return { state, effects: [] };
  return {
    state: { ...state, waiting: state.waiting.filter((utterance) => !late.includes(utterance)) },
    effects: late.map((utterance) => ({ type: 'dropped', utterance, why: 'late' })),
  };
}

/** What a stop makes stale: steps and chatter. */
const isStale = (utterance: Utterance): boolean => rank(utterance) > rankOf('timer');

/** Takes the voice from the call being said; it waits again unless that would make no sense. */
function cut<U extends Utterance>(state: QueueState<U>, next: U): QueueStep<U> {
  if (state.speaking === null) return { state, effects: [] };
  const { utterance } = state.speaking;
  const gone = utterance.priority === 'chatter' || (next.priority === 'stop' && isStale(utterance));
  const waiting = gone ? state.waiting : [utterance, ...state.waiting];
  return { state: { speaking: null, waiting }, effects: [{ type: 'cut', utterance }] };
}

/** Begins the next due call when nothing is being said. */
function startNext<U extends Utterance>(state: QueueState<U>, nowMs: number): QueueStep<U> {
  const next = nextOf(state.waiting, nowMs);
  const first = next?.pieces[0];
  if (next === undefined || first === undefined) return { state, effects: [] };
  if (timerAhead(state, next, nowMs) !== undefined) return { state, effects: [] };
  return {
    state: {
      speaking: { utterance: next, piece: 0 },
      waiting: state.waiting.filter((utterance) => utterance !== next),
    },
    effects: [
      { type: 'start', utterance: next },
      { type: 'play', piece: first },
    ],
  };
}

/** Runs steps one after the other and gathers their effects. */
function chain<U extends Utterance>(
  from: QueueState<U>,
  ...steps: ((state: QueueState<U>) => QueueStep<U>)[]
): QueueStep<U> {
  let state = from;
  const effects: QueueEffect<U>[] = [];
  for (const step of steps) {
    const result = step(state);
    state = result.state;
    effects.push(...result.effects);
  }
  return { state, effects };
}

/** Lets time pass to `nowMs`: drops what is too late, cuts, and starts what is due. */
export function advance<U extends Utterance>(from: QueueState<U>, nowMs: number): QueueStep<U> {
  return chain(
    from,
    (state) => dropLate(state, nowMs),
    (state) => {
      const { speaking } = state;
      if (speaking === null) return { state, effects: [] };
      // Not only the most urgent: a refusal that waits for the piece must not hold up a timer.
      const due = state.waiting.filter(
        (other) => isDue(other, nowMs) && cutsAtOnce(other, speaking.utterance),
      );
      const next = nextOf(due, nowMs);
      return next === undefined ? { state, effects: [] } : cut(state, next);
    },
    (state) => (state.speaking === null ? startNext(state, nowMs) : { state, effects: [] }),
  );
}

/** The same call, useful over overlapping times. */
function isSame(one: Utterance, other: Utterance): boolean {
  return one.key === other.key && one.dueMs <= other.expiresMs && other.dueMs <= one.expiresMs;
}

/**
 * Adds a call. One already waiting under the same key absorbs it, keeping the earlier due time and
 * the later expiry. A stop drops the steps and chatter that wait.
 * @throws RangeError when the call has no pieces.
 */
export function enqueue<U extends Utterance>(
  from: QueueState<U>,
  utterance: U,
  nowMs: number,
): QueueStep<U> {
  if (utterance.pieces.length === 0) throw new RangeError(`nothing to say in "${utterance.key}"`);
  const twin = from.waiting.find((waiting) => isSame(waiting, utterance));
  return chain(
    from,
    (state) => {
      if (twin === undefined) {
        return { state: { ...state, waiting: [...state.waiting, utterance] }, effects: [] };
      }
      const merged = {
        ...twin,
        dueMs: Math.min(twin.dueMs, utterance.dueMs),
        expiresMs: Math.max(twin.expiresMs, utterance.expiresMs),
      };
      const waiting = state.waiting.map((other) => (other === twin ? merged : other));
      return {
        state: { ...state, waiting },
        effects: [{ type: 'dropped', utterance, why: 'merged' }],
      };
    },
    (state) => (utterance.priority === 'stop' ? cancel(state, isStale) : { state, effects: [] }),
    (state) => advance(state, nowMs),
  );
}

/** Drops every waiting call that `matches`; the one being said goes on. */
export function cancel<U extends Utterance>(
  state: QueueState<U>,
  matches: (utterance: U) => boolean,
): QueueStep<U> {
  const gone = state.waiting.filter(matches);
  return {
    state: { ...state, waiting: state.waiting.filter((utterance) => !gone.includes(utterance)) },
    effects: gone.map((utterance) => ({ type: 'dropped', utterance, why: 'cancelled' })),
  };
}

/** Silence now: the call being said is cut for good and every waiting one dropped. */
export function silence<U extends Utterance>(state: QueueState<U>): QueueStep<U> {
  const effects: QueueEffect<U>[] = [];
  if (state.speaking !== null) effects.push({ type: 'cut', utterance: state.speaking.utterance });
  return chain({ ...state, speaking: null }, (cutState) => {
    const emptied = cancel(cutState, () => true);
    return { state: emptied.state, effects: [...effects, ...emptied.effects] };
  });
}

/** Somebody has taken the word: the step or chatter being said is cut for good, those waiting drop. */
export function hush<U extends Utterance>(state: QueueState<U>): QueueStep<U> {
  const { speaking } = state;
  const cutNow = speaking !== null && isStale(speaking.utterance);
  return chain(
    cutNow ? { ...state, speaking: null } : state,
    (quiet) => ({
      state: quiet,
      effects: cutNow ? [{ type: 'cut', utterance: speaking.utterance }] : [],
    }),
    (quiet) => cancel(quiet, isStale),
  );
}

/** The piece being played has ended: give way, go on, or finish the call. */
export function pieceEnded<U extends Utterance>(from: QueueState<U>, nowMs: number): QueueStep<U> {
  const { speaking } = from;
  if (speaking === null) return advance(from, nowMs);
  return chain(
    from,
    (state) => dropLate(state, nowMs),
    (state) => {
      const next = nextOf(state.waiting, nowMs);
      const following = speaking.utterance.pieces[speaking.piece + 1];
      if (following === undefined) {
        return {
          state: { ...state, speaking: null },
          effects: [{ type: 'said', utterance: speaking.utterance }],
        };
      }
      if (next !== undefined && rank(next) < rank(speaking.utterance)) return cut(state, next);
      return {
        state: { ...state, speaking: { ...speaking, piece: speaking.piece + 1 } },
        effects: [{ type: 'play', piece: following }],
      };
    },
    (state) => advance(state, nowMs),
  );
}

/** When {@link advance} must next be called if nothing else happens; null when never. */
export function wakeAt(state: QueueState, nowMs: number): number | null {
  const dues = state.waiting.filter((other) => !isDue(other, nowMs)).map((other) => other.dueMs);
  return dues.length === 0 ? null : Math.min(...dues);
}
