/** The chairside screen on the real machines, for trying it out by hand: `#live`. */
import { advance, initialState, live, opening, view } from '../../machines/conduct/index.ts';
import type { Call, Command, Way } from '../../machines/contract/index.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { GALLERY_CASE, GALLERY_PLAN } from './gallery-case.ts';
import type { ChairState, LastHeard } from './model.ts';

/** A case under way that is kept nowhere. */
export class LiveChair {
  #state = opening(initialState(GALLERY_CASE, GALLERY_PLAN), false).state;
  #lastHeard: LastHeard | null = null;
  #lastCall: Call | null = null;
  #typed: readonly string[] = [];

  /** What to show at page time `at`, ms. */
  at(at: number): ChairState {
    return {
      view: view(this.#state, at),
      live: live(this.#state),
      lastHeard: this.#lastHeard,
      lastCall: this.#lastCall,
      typedHistory: this.#typed,
    };
  }

  give(command: Command, via: Way, words: string, at: number): void {
    const { state, outcome, calls } = advance(this.#state, command, { at });
    this.#state = state;
    this.#lastCall = calls.at(-1) ?? this.#lastCall;
    this.#lastHeard = { words, via, score: null, became: outcome.kind };
  }

  type(text: string, at: number): void {
    this.#typed = [...this.#typed, text];
    const command = commandFor(text, live(this.#state));
    if (command === null) {
      this.#lastHeard = { words: text, via: 'typed', score: null, became: 'not-understood' };
    } else {
      this.give(command, 'typed', text, at);
    }
  }
}
