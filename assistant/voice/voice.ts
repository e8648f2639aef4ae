/** Seatcall's voice: calls in, one at a time out of the loudspeaker, by priority and deadline. */
import type { Call } from '../../machines/contract/index.ts';
import { callPieces, callText, callTiming } from '../../prompts/catalogue/index.ts';
import type { Clock } from './clock.ts';
import type { Player } from './player.ts';
import {
  advance,
  cancel,
  emptyQueue,
  enqueue,
  hush,
  pieceEnded,
  type QueueEffect,
  type QueueState,
  type QueueStep,
  silence,
  type Utterance,
  wakeAt,
} from './queue.ts';

/** A call while it is said, on the voice's clock. */
export interface Spoken {
  readonly call: Call;
  readonly text: string;
  readonly fromMs: number;
  /** When it will end, or did. */
  readonly untilMs: number;
  /** It waits for an answer. */
  readonly question: boolean;
}

/** What becomes of calls; every part may be left out. */
export interface VoiceListener {
  /** A call begins; `untilMs` is when it is expected to end. */
  onStart?(spoken: Spoken): void;
  /** It has ended; `whole` is false when it was cut. */
  onEnd?(spoken: Spoken, whole: boolean): void;
  /** A call was not said: too late, the same as another, or called off. */
  onDropped?(call: Call, why: 'late' | 'merged' | 'cancelled'): void;
}

/** A call and when it is due on the voice's clock. */
export interface Scheduled {
  readonly call: Call;
  readonly dueMs: number;
}

/** What the rest of the app says things with. */
export interface Voice {
  /** Says a call now, or at `dueMs`. */
  say(call: Call, dueMs?: number): void;
  /**
   * Sets the timed calls to come, in place of those set before and not yet due. What was set
   * before and has been due is not said again; what is new and past is said if still worth it.
   */
  schedule(calls: readonly Scheduled[]): void;
  /** Somebody speaks and will be answered: the loudspeaker is got ready. */
  ready(): void;
  /** Steps and chatter are cut short and forgotten: somebody has answered them. */
  hush(): void;
  /** Silence now; everything that waits is forgotten. */
  stop(): void;
  /** 0 is silent, 1 is full. */
  setVolume(volume: number): void;
}

/** What a voice is made of. */
export interface VoiceParts {
  readonly player: Player;
  readonly clock: Clock;
  readonly listener?: VoiceListener;
}

/** No timed call is worth saying, or can come again, so long after its due time. */
const REMEMBERED_MS = 600_000;

/** The loudspeaker is got ready so long before a call, ms. */
export const READY_MS = 1_000;

/** An utterance that remembers its call. */
interface Said extends Utterance {
  readonly call: Call;
  readonly scheduled: boolean;
}

function utteranceOf(call: Call, dueMs: number, scheduled: boolean, player: Player): Said {
  const pieces = callPieces(call);
  const { priority, deadlineMs } = callTiming(call);
  const lengthMs = pieces.reduce((sum, piece) => sum + (player.lengthMs(piece) ?? 0), 0);
  const key = JSON.stringify(call);
  const expiresMs = dueMs + deadlineMs;
  const text = callText(call);
  return { key, call, scheduled, priority, pieces, text, dueMs, expiresMs, lengthMs };
}

/** Makes a voice that plays through `player` by `clock`. */
export function createVoice({ player, clock, listener = {} }: VoiceParts): Voice {
  let state: QueueState<Said> = emptyQueue;
  let cutPiece: () => void = () => undefined;
  let forgetWake: () => void = () => undefined;
  let forgetReady: () => void = () => undefined;
  /** Timed calls that are set or have been started, by call and due time; when they start. */
  const known = new Map<string, number>();
  let fromMs = 0;

  const spoken = ({ call, text }: Said, untilMs: number): Spoken => {
    const { question } = callTiming(call);
    return { call, text, fromMs, untilMs, question };
  };

  const carryOut = (effect: QueueEffect<Said>): void => {
    const now = clock.now();
    switch (effect.type) {
      case 'start':
        fromMs = now;
        listener.onStart?.(spoken(effect.utterance, now + effect.utterance.lengthMs));
        return;
      case 'play':
        cutPiece = player.play(effect.piece, () => {
          take((nowMs) => pieceEnded(state, nowMs));
        });
        return;
      case 'cut':
      case 'said':
        cutPiece();
        listener.onEnd?.(spoken(effect.utterance, now), effect.type === 'said');
        return;
      case 'dropped':
        listener.onDropped?.(effect.utterance.call, effect.why);
    }
  };

  const take = (act: (nowMs: number) => QueueStep<Said>): void => {
    // One reading for both: a call not yet due in the step and past at a second look would be
    // neither begun nor woken for. Wakings do come a fraction of a millisecond early.
    const nowMs = clock.now();
    const step = act(nowMs);
    ({ state } = step);
    step.effects.forEach(carryOut);
    forgetWake();
    forgetReady();
    const wake = wakeAt(state, nowMs);
    if (wake === null) return;
    forgetWake = clock.at(wake, () => {
      take((laterMs) => advance(state, laterMs));
    });
    forgetReady = clock.at(wake - READY_MS, () => player.ready());
  };

  const say = (call: Call, dueMs: number, scheduled: boolean): void => {
    const utterance = utteranceOf(call, dueMs, scheduled, player);
    player.prepare(utterance.pieces);
    if (callTiming(call).latestOnly) {
      take(() => cancel(state, (waiting) => waiting.call.id === call.id));
    }
    take((nowMs) => enqueue(state, utterance, nowMs));
  };

  return {
    say(call, dueMs = clock.now()) {
      say(call, dueMs, false);
    },
    schedule(calls) {
      const now = clock.now();
      take(() => cancel(state, (waiting) => waiting.scheduled && waiting.dueMs > now));
      for (const [id, startMs] of known) {
        if (startMs > now || startMs < now - REMEMBERED_MS) known.delete(id);
      }
      for (const { call, dueMs } of calls) {
        const id = `${dueMs} ${JSON.stringify(call)}`;
        if (known.has(id) || dueMs < now - REMEMBERED_MS) continue;
        const startMs = dueMs - player.latencyMs();
        known.set(id, startMs);
        say(call, startMs, true);
      }
    },
    ready() {
      player.ready();
    },
    hush() {
      take(() => hush(state));
    },
    stop() {
      take(() => silence(state));
    },
    setVolume(volume) {
      player.setVolume(volume);
    },
  };
}
