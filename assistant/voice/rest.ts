/**
 * The loudspeaker's device rests while nothing is said: kept running on silence it takes a quarter of
 * what listening does, and after half a minute the browser lets go of it anyhow, unasked, and wakes it
 * with the first sound.
 */
import type { Clock } from './clock.ts';

/** What of an audio context is needed. */
export type Device = Pick<AudioContext, 'resume' | 'suspend'>;

/** The device goes on for so long after it was last needed: calls often follow each other, ms. */
export const REST_AFTER_MS = 5_000;
/** A device that does not wake within this is not waited for, ms. */
export const WAKE_MS = 300;

/** Times are ms on the clock it is given. */
export class Rest {
  readonly #clock: Clock;
  readonly #device: () => Device | undefined;
  #resting = false;
  #fromMs = -Infinity;
  #forget: () => void = () => undefined;

  /** `device`: undefined until there is one. */
  constructor(clock: Clock, device: () => Device | undefined) {
    this.#clock = clock;
    this.#device = device;
  }

  /** Wakes the device if it rests, and keeps it awake for so long and a while after; kept once it is awake. */
  async wake(forMs: number): Promise<void> {
    const fromMs = this.#clock.now() + forMs + REST_AFTER_MS;
    if (fromMs > this.#fromMs) {
      this.#fromMs = fromMs;
      this.#forget();
      this.#forget = this.#clock.at(fromMs, () => this.#rest());
    }
    if (!this.#resting) return;
    this.#resting = false;
    await new Promise<void>((resolve) => {
      const giveUp = this.#clock.at(this.#clock.now() + WAKE_MS, resolve);
      const awake = (): void => {
        giveUp();
        resolve();
      };
      // A device that is gone for good is the page's trouble, not this call's.
      this.#device()?.resume().then(awake, awake);
    });
  }

  #rest(): void {
    this.#resting = true;
    // A device that was not running, such as before the first touch, is woken as if it had been.
    this.#device()
      ?.suspend()
      .catch(() => null);
  }
}
