/**
 * A talk written for a case: every line is checked against the machines as it is written, and the
 * pauses leave room for what Seatcall says back, so the same talk can be rehearsed and performed.
 */
import type { CaseFile, Outcome } from '../../machines/contract/index.ts';
import { dueCalls, live } from '../../machines/conduct/index.ts';
import { callPieces } from '../../prompts/catalogue/index.ts';
import { servedAt, windowOf } from '../../machines/seating/index.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { speak, SPEECH_RATE, type VoiceName } from '../speech/index.ts';
import type { Utterance } from '../speech/timeline.ts';
import { Operatory } from './operatory.ts';

/** From the end of speech to the command taken: endpoint, decoding, a slow machine, ms. */
const HEARING_MS = 900;
/** A command begun this long after a minimum is served is taken after it also on a slow machine, ms. */
const SLACK_MS = 600;
/** People wait a little after a call, ms. */
const BREATH_MS = 350;

export interface ScriptOptions {
  readonly voice: VoiceName;
  readonly callSign: string;
  /** Milliseconds a piece of a call takes. */
  readonly pieceMs: ReadonlyMap<string, number>;
  /** Share of each answer that is waited for: 1 hears it out, 0 talks into it. */
  readonly patience: number;
}

/** What a line is to come to. */
export type Expected = Outcome['kind'];

export interface Line {
  readonly words: string;
  readonly expected: Expected;
}

export class Script {
  readonly utterances: Utterance[] = [];
  readonly lines: Line[] = [];
  readonly chair: Operatory;
  readonly #options: ScriptOptions;
  #atMs: number;

  /** Begins after the opening calls of the case. */
  constructor(caseFile: CaseFile, options: ScriptOptions, startMs = 14_000) {
    this.chair = new Operatory(caseFile);
    this.#options = options;
    this.#atMs = startMs;
  }

  get nowMs(): number {
    return this.#atMs;
  }

  /**
   * Says `words` after the call sign and waits for the answer to end.
   * @throws Error when the machines would make something else of it.
   */
  async say(words: string, expected: Expected = 'accepted'): Promise<this> {
    const command = commandFor(words, live(this.chair.state));
    if (command === null) throw new Error(`"${words}" means nothing at ${String(this.chair.step)}`);
    const text = `${this.#options.callSign}, ${words}`;
    const { voice } = this.#options;
    const lengthMs = ((await speak(text, voice)).length * 1000) / SPEECH_RATE;
    this.utterances.push({ atMs: this.#atMs, text, voice });
    this.chair.at = this.#atMs + lengthMs + HEARING_MS / 2;
    const outcome = this.chair.say(command);
    if (outcome.kind !== expected) {
      throw new Error(
        `"${words}" at ${String(this.chair.step)} came to ${JSON.stringify(outcome)}`,
      );
    }
    this.lines.push({ words, expected });
    const answerMs = this.chair.calls
      .flatMap((call) => callPieces(call))
      .reduce((sum, piece) => sum + (this.#options.pieceMs.get(piece) ?? 0), 0);
    this.#atMs += lengthMs + HEARING_MS + answerMs * this.#options.patience + BREATH_MS;
    return this;
  }

  /** Says each in turn, all accepted. */
  async all(...words: readonly string[]): Promise<this> {
    for (const one of words) await this.say(one);
    return this;
  }

  /** Begins a dwell, serves its minimum, and ends it. */
  async dwell(begin: string, finish: string): Promise<this> {
    await this.say(begin);
    return this.untilServed().say(finish);
  }

  /** Begins what is read back, answers yes, serves the minimum, and ends it. */
  async grave(begin: string, finish: string): Promise<this> {
    await this.say(begin, 'asked');
    await this.say('yes');
    return this.untilServed().say(finish);
  }

  /** Lets time pass until every running dwell's time has been called. */
  untilTime(): this {
    const times = dueCalls(this.chair.state).filter(({ call }) => call.id === 'time');
    const last = Math.max(0, ...times.map(({ at }) => at));
    this.#atMs = Math.max(this.#atMs, last + 2_500);
    return this;
  }

  /** Lets time pass until every running dwell may be ended. */
  untilServed(): this {
    const { unit } = this.chair;
    const served = unit.dwells.map((dwell) => {
      const minS = windowOf(unit, dwell.step)?.minS ?? 0;
      return servedAt(dwell, minS) ?? 0;
    });
    this.#atMs = Math.max(this.#atMs, Math.max(0, ...served) + SLACK_MS);
    return this;
  }

  wait(seconds: number): this {
    this.#atMs += seconds * 1000;
    return this;
  }
}
