/** Runs the call queue in made time, keeping what it did and when. */
import {
  advance,
  emptyQueue,
  enqueue,
  pieceEnded,
  type QueueEffect,
  type QueueState,
  type QueueStep,
  type Utterance,
  wakeAt,
} from '../assistant/voice/queue.ts';
import type { Priority } from '../prompts/catalogue/priority.ts';

/** An effect and the moment of it. */
export interface TimedEffect {
  readonly atMs: number;
  readonly effect: QueueEffect;
}

/** A call of `count` pieces of `pieceMs` each. */
export function call(
  key: string,
  priority: Priority,
  dueMs: number,
  { count = 1, pieceMs = 500, deadlineMs = 5_000 } = {},
): Utterance {
  const pieces = Array.from({ length: count }, (_, i) => `${key} ${i}`);
  return {
    key,
    priority,
    pieces,
    text: key,
    dueMs,
    expiresMs: dueMs + deadlineMs,
    lengthMs: count * pieceMs,
  };
}

/** Says each call at its moment, plays pieces for their length, until nothing is left. */
export function run(says: readonly { readonly atMs: number; readonly utterance: Utterance }[]): {
  readonly effects: readonly TimedEffect[];
  readonly state: QueueState;
} {
  const effects: TimedEffect[] = [];
  const coming = says.toSorted((one, other) => one.atMs - other.atMs);
  let state: QueueState = emptyQueue;
  let pieceEndMs: number | null = null;
  const take = (step: QueueStep, atMs: number): void => {
    state = step.state;
    for (const effect of step.effects) {
      effects.push({ atMs, effect });
      if (effect.type === 'cut') pieceEndMs = null;
      if (effect.type === 'play') {
        const utterance = state.speaking?.utterance;
        if (utterance === undefined) throw new Error('a piece plays though nothing is said');
        pieceEndMs = atMs + utterance.lengthMs / utterance.pieces.length;
      }
    }
  };
  let nowMs = 0;
  for (;;) {
    const moments = [coming[0]?.atMs, pieceEndMs, wakeAt(state, nowMs)].filter(
      (moment) => moment !== undefined && moment !== null,
    );
    if (moments.length === 0) return { effects, state };
    nowMs = Math.max(nowMs, Math.min(...moments));
    const said = coming[0];
    if (said !== undefined && said.atMs <= nowMs) {
      coming.shift();
      take(enqueue(state, said.utterance, nowMs), nowMs);
    } else if (pieceEndMs !== null && pieceEndMs <= nowMs) {
      pieceEndMs = null;
      take(pieceEnded(state, nowMs), nowMs);
    } else {
      take(advance(state, nowMs), nowMs);
    }
  }
}
