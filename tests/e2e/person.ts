/** Somebody at the chair, in real time: says a line, and says it again when it was not heard. */
import type { CaseFile } from '../../machines/contract/index.ts';
import { type Expected, Talk } from '../chair/talk.ts';
import { speak, SPEECH_RATE, type VoiceName } from '../speech/index.ts';
import { amplitude, rms } from '../speech/noise.ts';
import type { Operatory } from './harness.ts';
import { logLines, type Reading } from './log.ts';
import { utter } from './room.ts';

/** A headset's speech level, dB below full scale. */
const SPEECH_DBFS = -24;
/** Whoever gets no answer for this long says it again, ms. */
const PATIENCE_MS = 5_000;
/** More often than this nobody repeats a word. */
const TRIES = 5;

const BECAME = {
  accepted: /taken$/,
  asked: /waits for your answer$/,
  refused: /refused$/,
} as const satisfies Readonly<Record<Expected, RegExp>>;

/** Whether what stands on the screen shares no word with what was said: it was misheard. */
function isOther(heard: string, words: string): boolean {
  return !words.split(' ').some((word) => heard.includes(word.slice(0, 4)));
}

/** Speech without the silence a synthesiser leaves after it, so that its end is its end. */
function withoutTail(pcm: Float32Array): Float32Array {
  const peak = pcm.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  return pcm.subarray(0, pcm.findLastIndex((sample) => Math.abs(sample) > peak / 50) + 1);
}

export class Person extends Talk {
  /** Lines that had to be said again. */
  readonly repeated: string[] = [];
  /** Lines that were not clear, and were asked back. */
  readonly askedBack: string[] = [];
  /** From the end of each line's speech to what became of it standing on the screen, ms. */
  readonly answeredMs: number[] = [];
  readonly #operatory: Operatory;
  readonly #voice: VoiceName;
  readonly #startMs = performance.now();

  constructor(caseFile: CaseFile, operatory: Operatory, voice: VoiceName) {
    super(caseFile);
    this.#operatory = operatory;
    this.#voice = voice;
  }

  override get nowMs(): number {
    return performance.now() - this.#startMs;
  }

  protected override async utter(words: string, expected: Expected): Promise<number> {
    const { page } = this.#operatory;
    for (let tries = 0; tries < TRIES; tries += 1) {
      if (tries > 0) this.repeated.push(words);
      const before = (await this.#operatory.log()).length;
      const endMs = await utter(page, await this.#speech(words, tries), SPEECH_RATE);
      const answer = await this.#answer(before);
      if (answer === null) continue;
      const heard = answer.text;
      this.answeredMs.push(answer.atMs - endMs);
      if (BECAME[expected].test(heard)) {
        if (!isOther(heard, words)) return this.nowMs;
        await this.#takeBack();
        continue;
      }
      // Asked back because it was not clear: one word more, or no, and said again.
      if (BECAME.asked.test(heard)) {
        this.askedBack.push(words);
        if (await this.#settle(isOther(heard, words) ? 'no' : 'yes')) return this.nowMs;
        continue;
      }
      // Mistaken for something that changed nothing: say it again. Anything else is a fault.
      if (!heard.endsWith('refused')) throw new Error(`"${words}" was taken for: ${heard}`);
    }
    throw await this.#unheard(words);
  }

  async #unheard(words: string): Promise<Error> {
    const log = logLines(await this.#operatory.log());
    return new Error(`"${words}" was not heard in ${TRIES} tries:\n${log}`);
  }

  /** Somebody who sees the wrong words on the screen takes them back. */
  async #takeBack(): Promise<void> {
    for (const words of ['undo that', 'yes']) {
      const answer = await this.#plainly(words);
      if (answer !== null && BECAME.accepted.test(answer.text)) return;
    }
  }

  /** Answers what was asked back; true when the answer was a yes that was taken. */
  async #settle(answer: 'yes' | 'no'): Promise<boolean> {
    for (let tries = 0; tries < TRIES; tries += 1) {
      const became = await this.#plainly(answer);
      if (became !== null && BECAME.accepted.test(became.text)) return answer === 'yes';
    }
    throw await this.#unheard(answer);
  }

  /** Says a word or two as they are; what the screen makes of it. */
  async #plainly(words: string): Promise<Reading | null> {
    const before = (await this.#operatory.log()).length;
    await utter(this.#operatory.page, await this.#speech(words, 0), SPEECH_RATE);
    return this.#answer(before);
  }

  /** The line as it is said: slower, and in other places of the breath, when it is said again. */
  async #speech(words: string, tries: number): Promise<Float32Array> {
    const text = tries % 2 === 0 ? `lantern, ${words}` : `lantern ${words}`;
    const raw = await speak(text, this.#voice, { stretch: 1 + 0.08 * tries });
    const said = withoutTail(raw);
    const level = amplitude(SPEECH_DBFS) / rms(said);
    return said.map((value) => value * level);
  }

  /** What the screen says of the last command heard, after reading `before`; null when of none. */
  async #answer(before: number): Promise<Reading | null> {
    const last = performance.now() + PATIENCE_MS;
    while (performance.now() < last) {
      const log = (await this.#operatory.log()).slice(before);
      const heard = log.filter(({ place }) => place === 'heard');
      const command = heard.find(({ text }) =>
        Object.values(BECAME).some((like) => like.test(text)),
      );
      if (command !== undefined) return command;
      await this.#operatory.page.waitForTimeout(60);
    }
    return null;
  }

  protected override async listen(): Promise<void> {
    // The next line is addressed, so it may be said into the answer.
    await this.#operatory.page.waitForTimeout(150);
  }

  override async until(ms: number): Promise<void> {
    await this.#operatory.page.waitForTimeout(Math.max(0, ms - this.nowMs + 150));
  }
}
