/** What time alone changes on the screen is looked at a few times a second, but only while there is any. */
export class Ticker {
  readonly #everyMs: number;
  readonly #tick: () => boolean;
  #isDue = false;

  /** `tick`, `everyMs` apart, looks, and says whether time alone will change more. */
  constructor(everyMs: number, tick: () => boolean) {
    this.#everyMs = everyMs;
    this.#tick = tick;
  }

  /** Something has changed: it is looked at until time alone changes nothing more. */
  wake(): void {
    if (this.#isDue) return;
    this.#isDue = true;
    setTimeout(() => {
      this.#isDue = false;
      if (this.#tick()) this.wake();
    }, this.#everyMs);
  }
}
