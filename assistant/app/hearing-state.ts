import { type Call, HEARD_BADLY } from '../../machines/contract/index.ts';
import type { EarView } from '../screens/model.ts';
import type { EarTrouble, TroubleKind } from '../ear/trouble.ts';

/** Troubles after which sound still comes in: worth saying, but hearing goes on. */
const MILD: readonly TroubleKind[] = [...HEARD_BADLY, 'wake word'];

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

/** The ear as the screen shows it at page time `nowMs`; a mild trouble where nothing else is to be seen. */
export function earView(state: HearingState, nowMs: number): EarView {
  const grave = state.troubles.find(({ kind }) => !MILD.includes(kind));
  if (state.phase === 'off') return { kind: 'off' };
  if (grave !== undefined) return troubleView(grave);
  if (state.phase === 'starting') return { kind: 'starting', part: null };
  if (nowMs < state.speakingUntilMs) return { kind: 'speaking' };
  const { speechSinceMs } = state;
  if (speechSinceMs !== null && nowMs - speechSinceMs < LONGEST_SPEECH_MS) {
    return { kind: 'hearing' };
  }
  if (nowMs < state.openUntilMs) return { kind: 'awake' };
  // The newest: one that lasts all day would hide the others.
  const mild = state.troubles.at(-1);
  return mild === undefined ? { kind: 'asleep' } : troubleView(mild);
}

/** Whether time alone will change what is shown. */
export const runsOut = ({ kind }: EarView): boolean =>
  kind === 'speaking' || kind === 'hearing' || kind === 'awake';

const troubleView = ({ sentence, remedy }: EarTrouble): EarView => ({
  kind: 'trouble',
  sentence,
  remedy,
});

/** A mild trouble is not said again for so long: suction comes and goes, ms. */
const SAID_AGAIN_MS = 10 * 60_000;

/** Which troubles are said aloud, and how. */
export class TroubleCalls {
  readonly #saidMs = new Map<TroubleKind, number>();

  /** The call for a trouble told at page time `nowMs`; null when it is only shown. */
  callFor({ kind }: EarTrouble, nowMs: number): Call | null {
    const mild = HEARD_BADLY.find((why) => why === kind);
    if (mild === undefined) return kind === 'wake word' ? null : { id: 'cannot-hear' };
    if (nowMs - (this.#saidMs.get(kind) ?? -Infinity) < SAID_AGAIN_MS) return null;
    this.#saidMs.set(kind, nowMs);
    return { id: 'hears-badly', why: mild };
  }
}
