/** A talk written down beforehand: one sound file, with pauses for what Seatcall says back. */
import type { CaseFile } from '../../machines/contract/index.ts';
import { callPieces } from '../../prompts/catalogue/index.ts';
import { speak, SPEECH_RATE, type VoiceName } from '../speech/index.ts';
import type { Utterance } from '../speech/timeline.ts';
import { Talk } from './talk.ts';

/** From the end of speech to the command taken: endpoint, decoding, a slow machine, ms. */
const HEARING_MS = 900;
/** A command begun this long after a minimum is served is taken after it, also on a slow machine, ms. */
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

export class Script extends Talk {
  readonly utterances: Utterance[] = [];
  readonly #options: ScriptOptions;
  #atMs: number;

  /** Begins after the opening calls of the case. */
  constructor(caseFile: CaseFile, options: ScriptOptions, startMs = 14_000) {
    super(caseFile);
    this.#options = options;
    this.#atMs = startMs;
  }

  override get nowMs(): number {
    return this.#atMs;
  }

  protected override async utter(words: string): Promise<number> {
    const { voice, callSign } = this.#options;
    const text = `${callSign}, ${words}`;
    const lengthMs = ((await speak(text, voice)).length * 1000) / SPEECH_RATE;
    this.utterances.push({ atMs: this.#atMs, text, voice });
    this.#atMs += lengthMs + HEARING_MS;
    return this.#atMs - HEARING_MS / 2;
  }

  protected override async listen(): Promise<void> {
    const { pieceMs, patience } = this.#options;
    const answerMs = this.chair.calls
      .flatMap((call) => callPieces(call))
      .reduce((sum, piece) => sum + (pieceMs.get(piece) ?? 0), 0);
    this.#atMs += answerMs * patience + BREATH_MS;
  }

  override async until(ms: number): Promise<void> {
    this.#atMs = Math.max(this.#atMs, ms + SLACK_MS);
  }
}
