/** Relates a sound stream's own time to the page's monotonic clock. */

/** The relation is taken anew this often, so that a clock that runs apart is followed, ms. */
const WINDOW_MS = 10_000;

/** Frames come late, never early, so the earliest arrival marks the true relation. */
export class StreamClock {
  #originMs = Infinity;
  #recentMs = Infinity;
  #sinceMs = Number.NaN;

  /** Page time of the stream's beginning, ms; NaN before the first frame. */
  get originMs(): number {
    return Number.isFinite(this.#originMs) ? this.#originMs : Number.NaN;
  }

  /** Notes that the frame which ends at `streamMs` came at page time `nowMs`. */
  arrived(streamMs: number, nowMs: number): void {
    const origin = nowMs - streamMs;
    if (Number.isNaN(this.#sinceMs)) this.#sinceMs = nowMs;
    this.#originMs = Math.min(this.#originMs, origin);
    this.#recentMs = Math.min(this.#recentMs, origin);
    if (nowMs - this.#sinceMs < WINDOW_MS) return;
    this.#originMs = this.#recentMs;
    this.#recentMs = Infinity;
    this.#sinceMs = nowMs;
  }
}
