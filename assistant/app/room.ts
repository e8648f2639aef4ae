/** The room check: the ear tried out before the first case, with nothing following from it. */
import { wholeGrammar } from '../../prompts/phrases/index.ts';
import { CHECK_PHRASES, RoomCheck, type RoomReport, type RoomStage } from '../ear/room-check.ts';
import type { RoomView } from '../screens/model.ts';
import type { Clock } from '../voice/clock.ts';
import type { Board } from './board.ts';
import type { Listening, ListeningSettings } from './listening.ts';

/** How often the seconds left are shown anew, ms. */
const TICK_MS = 250;

export interface RoomParts {
  readonly board: Board;
  readonly listening: Listening;
  readonly clock: Clock;
  /** What the ear would listen with now. */
  readonly settings: () => ListeningSettings;
}

export class Room {
  readonly #parts: RoomParts;
  #check: RoomCheck | null = null;
  #cancelTick: () => void = () => undefined;

  constructor(parts: RoomParts) {
    this.#parts = parts;
  }

  /** True while the room is being listened to. */
  get running(): boolean {
    return this.#check !== null;
  }

  /** Begins anew; never while a case is being heard. */
  async check(): Promise<void> {
    const { board, listening, clock, settings } = this.#parts;
    if (listening.on && this.#check === null) {
      throw new Error('The ear is busy with a case; check the room before one is opened.');
    }
    board.set({ room: { stage: 'starting' } });
    await listening.start(settings(), {
      // All phrases at once: harder than any moment of a case.
      phrases: wholeGrammar(),
      onHeard: (heard) => this.#check?.heard(heard, clock.now()),
      onSpeech: () => this.#check?.speaks(clock.now()),
      onLevel: (level, atMs) => this.#check?.level(level, atMs),
    });
    if (listening.state.phase !== 'on') {
      board.set({ room: null });
      await listening.stop();
      throw new Error(listening.state.troubles[0]?.sentence ?? 'The microphone did not open.');
    }
    this.#check = new RoomCheck(clock.now());
    this.#tick();
  }

  /** Ends a check under way; a report stays. */
  async end(): Promise<void> {
    this.#cancelTick();
    if (this.#check === null) return;
    this.#check = null;
    if (this.#parts.board.state.room?.stage !== 'done') this.#parts.board.set({ room: null });
    await this.#parts.listening.stop();
  }

  #tick(): void {
    const { board, clock } = this.#parts;
    if (this.#check === null) return;
    const now = clock.now();
    const stage = this.#check.at(now);
    board.set({ room: viewOf(stage, now) });
    if (stage.stage === 'done') void this.end();
    else this.#cancelTick = clock.at(now + TICK_MS, () => this.#tick());
  }
}

function viewOf(stage: RoomStage, nowMs: number): RoomView {
  if (stage.stage === 'done') return reportView(stage.report);
  const leftS = Math.max(0, Math.ceil((stage.untilMs - nowMs) / 1000));
  if (stage.stage === 'quiet') return { stage: 'quiet', leftS };
  return {
    stage: 'reading',
    say: CHECK_PHRASES[stage.phrase] ?? '',
    done: stage.phrase,
    all: CHECK_PHRASES.length,
    leftS,
  };
}

function reportView({ verdict, noiseDbfs, speechDbfs, outcomes, remedies }: RoomReport): RoomView {
  return {
    stage: 'done',
    verdict,
    marginDb: speechDbfs === null ? null : Math.round(speechDbfs - noiseDbfs),
    phrases: CHECK_PHRASES.map((words, at) => ({ words, outcome: outcomes[at] ?? 'nothing' })),
    remedies,
  };
}
