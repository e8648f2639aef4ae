import type { AppState } from '../screens/model.ts';

/** Holds what the screens show, and draws it once a frame however often it changes. */
export class Board {
  #state: AppState;
  #due = false;
  readonly #draw: (state: AppState) => void;

  constructor(state: AppState, draw: (state: AppState) => void) {
    this.#state = state;
    this.#draw = draw;
  }

  get state(): AppState {
    return this.#state;
  }

  set(change: Partial<AppState>): void {
    this.#state = { ...this.#state, ...change };
    if (this.#due) return;
    this.#due = true;
    requestAnimationFrame(() => {
      this.#due = false;
      this.#draw(this.#state);
    });
  }
}
