import type { EarView } from '../screens/model.ts';
import type { EarTrouble, TroubleKind } from '../ear/trouble.ts';

/** Troubles after which sound still comes in: worth saying, but hearing goes on. */
const MILD: readonly TroubleKind[] = ['clipped', 'wake word'];

/** What is known of the ear; the view of it is a function of this and the time. */
export interface HearingState {
  readonly phase: 'off' | 'starting' | 'on';
  readonly troubles: readonly EarTrouble[];
  /** Page time until which no call sign is needed, ms. */
  readonly openUntilMs: number;
  /** Page time until which a call sounds, ms; Infinity while its end is not known. */
  readonly speakingUntilMs: number;
  /** Page time since which somebody speaks; null when nobody does. */
  readonly speechSinceMs: number | null;
}

export const AT_REST: HearingState = {
  phase: 'off',
  troubles: [],
  openUntilMs: -Infinity,
  speakingUntilMs: -Infinity,
  speechSinceMs: null,
};

/** Speech that never ended in a segment is forgotten after this, ms. */
const LONGEST_SPEECH_MS = 8_000;

/** The ear as the screen shows it at page time `nowMs`. */
export function earView(state: HearingState, nowMs: number): EarView {
  const grave = state.troubles.find(({ kind }) => !MILD.includes(kind)) ?? state.troubles[0];
  if (state.phase === 'off') return { kind: 'off' };
  if (grave !== undefined) {
    return { kind: 'trouble', sentence: grave.sentence, remedy: grave.remedy };
  }
  if (state.phase === 'starting') return { kind: 'starting', part: null };
  if (nowMs < state.speakingUntilMs) return { kind: 'speaking' };
  const { speechSinceMs } = state;
  if (speechSinceMs !== null && nowMs - speechSinceMs < LONGEST_SPEECH_MS) {
    return { kind: 'hearing' };
  }
  const leftMs = state.openUntilMs - nowMs;
  return leftMs > 0 ? { kind: 'awake', leftMs } : { kind: 'asleep' };
}
