/** The embedded call sign as a {@link WakeWord}. */
import { readCallSign } from '../held-grammar.ts';
import type { WakeWord } from './port.ts';

/**
 * The call sign that the recogniser hears: it is part of the grammar every segment is held to
 * (attention.ts), so no frame needs a second look here.
 * @throws CallSignError when the word cannot be used.
 */
export function embeddedCallSign(word: string): WakeWord {
  return {
    words: [readCallSign(word)],
    listens: false,
    push: () => undefined,
    close: () => Promise.resolve(),
  };
}
