/** Somebody at the chair who says a case through: what is said, apart from how it is heard. */
import type { CaseFile, Outcome } from '../../machines/contract/index.ts';
import { dueCalls, live } from '../../machines/conduct/index.ts';
import { servedAt, windowOf } from '../../machines/seating/index.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { Operatory } from './operatory.ts';

/** What a line is to come to. */
export type Expected = Outcome['kind'];

/** One thing said, and what it came to. */
export interface Line {
  readonly words: string;
  readonly expected: Expected;
}

/**
 * Every line is checked against the machines as it is said, so a talk that says something else
 * than it means never gets as far as the ear. Times are milliseconds of the talk's own clock.
 */
export abstract class Talk {
  readonly lines: Line[] = [];
  readonly chair: Operatory;

  constructor(caseFile: CaseFile) {
    this.chair = new Operatory(caseFile);
  }

  /** The time now. */
  abstract get nowMs(): number;
  /** Says the words; resolves to the time at which the command is taken. */
  protected abstract utter(words: string, expected: Expected): Promise<number>;
  /** Hears what Seatcall answers, or not. */
  protected abstract listen(): Promise<void>;
  /** Lets time pass up to `ms`. */
  abstract until(ms: number): Promise<void>;

  /**
   * Says `words`.
   * @throws Error when the machines would make something else of it.
   */
  async say(words: string, expected: Expected = 'accepted'): Promise<void> {
    const command = commandFor(words, live(this.chair.state));
    if (command === null) throw new Error(`"${words}" means nothing at ${String(this.chair.step)}`);
    this.chair.at = await this.utter(words, expected);
    const outcome = this.chair.say(command);
    if (outcome.kind !== expected) {
      throw new Error(
        `"${words}" at ${String(this.chair.step)} came to ${JSON.stringify(outcome)}`,
      );
    }
    this.lines.push({ words, expected });
    await this.listen();
  }

  /** Says each in turn, all accepted. */
  async all(...words: readonly string[]): Promise<void> {
    for (const one of words) await this.say(one);
  }

  /** Begins a dwell, serves its minimum, and ends it. */
  async dwell(begin: string, finish: string): Promise<void> {
    await this.say(begin);
    await this.untilServed();
    await this.say(finish);
  }

  /** Begins what is read back, answers yes, serves the minimum, and ends it. */
  async grave(begin: string, finish: string): Promise<void> {
    await this.say(begin, 'asked');
    await this.say('yes');
    await this.untilServed();
    await this.say(finish);
  }

  /** Lets time pass until every running dwell's time has been called. */
  async untilTime(): Promise<void> {
    const times = dueCalls(this.chair.state).filter(({ call }) => call.id === 'time');
    await this.until(Math.max(this.nowMs, ...times.map(({ at }) => at + 2_500)));
  }

  /** Lets time pass until every running dwell may be ended. */
  async untilServed(): Promise<void> {
    const { unit } = this.chair;
    const served = unit.dwells.map((dwell) => {
      const minS = windowOf(unit, dwell.step)?.minS ?? 0;
      return servedAt(dwell, minS) ?? 0;
    });
    await this.until(Math.max(this.nowMs, ...served));
  }
}
