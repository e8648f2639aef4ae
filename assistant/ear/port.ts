/**
 * The recogniser port: the only thing the rest of Seatcall knows about an engine.
 * Another engine is one more file that satisfies `Recogniser`.
 */

/** Sample rate every part of the ear works at, in hertz. */
export const SAMPLE_RATE = 16_000;

/** Mono sound at {@link SAMPLE_RATE}, samples in -1..1. */
export type Pcm = Float32Array;

/** The rule of a grammar, where it has one, that holds our own voice: to be heard as itself, worth no second look. */
export const OWN_VOICE_RULE = 'own-voice';

/** One way to take a segment of speech. */
export interface Reading {
  /** The words, lower case, single spaces, exactly as the grammar spells them. */
  readonly phrase: string;
  /** Confidence from 0 (guess) to 1 (sure); comparable between segments of one engine. */
  readonly score: number;
}

/** What was heard in one segment of speech. */
export interface Heard extends Reading {
  /** False in between: worth asking back, not enough to act on. */
  readonly sure: boolean;
  /** What comes so close that nobody can tell by ear alone, the likeliest first. */
  readonly others?: readonly Reading[];
}

/** An engine that hears only what a grammar allows. */
export interface Recogniser {
  /**
   * Makes `grammar` (JSGF text) the one that segments are held to from now on.
   * Compiled grammars are cached by their text, so switching back is cheap.
   * @throws JsgfError with line and column when the text is not JSGF.
   */
  load(grammar: string): Promise<void>;
  /**
   * Begins on a segment that is likely to come: `hear` of the same sound under the same grammar then
   * gives the same, sooner. An engine may leave it out.
   */
  hearAhead?(segment: Pcm): Promise<void>;
  /** Hears one segment; null when nothing in the grammar is believable. */
  hear(segment: Pcm): Promise<Heard | null>;
  /** Frees the engine's memory; no call may follow. */
  close(): Promise<void>;
}
