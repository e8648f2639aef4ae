/**
 * A recogniser whose "sound" is written words, one character a sample: exact, instant, and held
 * to the grammar like any other, so that logic around a recogniser can be tested by words.
 */
import type { Heard, Pcm, Recogniser } from '../../assistant/ear/port.ts';
import type { SpeechSegment } from '../../assistant/ear/vad/segmenter.ts';
import { matches, parseJsgf, WordAutomaton } from '../../prompts/grammar/index.ts';

/** Words as "sound"; a mark of interrogation behind them makes them mumbled: heard, but not for sure. */
export function written(words: string): Pcm {
  return Float32Array.from(words, (letter) => letter.charCodeAt(0) / 1000);
}

const read = (pcm: Pcm): string =>
  String.fromCharCode(...Array.from(pcm, (sample) => Math.round(sample * 1000))).trim();

export class WrittenRecogniser implements Recogniser {
  /** Every grammar that was loaded, in order. */
  readonly loaded: string[] = [];
  #grammar: WordAutomaton | null = null;

  async load(grammar: string): Promise<void> {
    this.#grammar = new WordAutomaton(parseJsgf(grammar));
    this.loaded.push(grammar);
  }

  async hear(segment: Pcm): Promise<Heard | null> {
    if (!this.#grammar) throw new Error('no grammar loaded');
    const text = read(segment);
    const sure = !text.endsWith('?');
    const phrase = sure ? text : text.slice(0, -1);
    return matches(this.#grammar, phrase) ? { phrase, score: sure ? 0.9 : 0.2, sure } : null;
  }

  async close(): Promise<void> {
    this.#grammar = null;
  }
}

/** A segment of written words, spoken from `startMs` to `endMs`. */
export function segmentOf(words: string, startMs: number, endMs: number): SpeechSegment {
  return {
    kind: 'segment',
    pcm: written(words),
    startMs,
    endMs,
    speechStartMs: startMs,
    speechEndMs: endMs,
    cut: false,
  };
}
