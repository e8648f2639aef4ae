/** The outside world's two clocks; a test makes its own. */
export interface Clocks {
  /** Milliseconds since the Unix epoch; may jump. */
  wall(): number;
  /** Milliseconds since some moment of this browsing session; never goes back. */
  mono(): number;
}

/** The last entry's times, from which a case goes on in a new session. */
export interface LastSeen {
  /** Case time, ms. */
  readonly at: number;
  /** ISO 8601 in UTC. */
  readonly wall: string;
}

/** Whole milliseconds of case time and session, and the wall clock as ISO 8601 in UTC: the time part of a stamp. */
export interface CaseTime {
  readonly at: number;
  readonly wall: string;
  readonly mono: number;
}

export interface CaseClock {
  /** The time now; `at` never goes back. */
  now(): CaseTime;
  /**
   * How far the wall clock has moved against the monotonic one since the session began, ms. Far
   * from 0 means that the clock was set, or that the machine slept: browsers need not count sleep.
   */
  driftMs(): number;
  /** How far the wall clock stood before the last entry's when the case was taken up, ms; 0 if it didn't. */
  readonly wentBackMs: number;
  /** What to tell people about the clock; null when all is well. */
  readonly notice: string | null;
}

/** Clocks that are kept in step by a time server move back by less than this without harm. */
const WORTH_SAYING_MS = 1000;

/** The clocks of the browser, or of Node. */
export const systemClocks: Clocks = { wall: () => Date.now(), mono: () => performance.now() };

/**
 * Case time. Within a session it follows the monotonic clock, so that setting the wall clock
 * changes nothing. From one session to the next only the wall clock goes on: case time is the
 * last entry's and what the wall clock has gained since, never less than nothing.
 * @param last the last entry's stamp; null for a case that starts now.
 * @param openedWall the header's `opened`, which stands in for `last` when there is no entry yet.
 */
export function makeCaseClock(
  clocks: Clocks,
  last: LastSeen | null,
  openedWall?: string,
): CaseClock {
  const wall0 = clocks.wall();
  const mono0 = clocks.mono();
  const since = last ?? (openedWall === undefined ? null : { at: 0, wall: openedWall });
  const gained = since === null ? 0 : wall0 - Date.parse(since.wall);
  const base = (since?.at ?? 0) + Math.max(0, gained);
  const wentBackMs = Math.max(0, -gained);
  let latest = Math.floor(base);
  return {
    now() {
      const mono = clocks.mono();
      latest = Math.max(latest, Math.floor(base + mono - mono0));
      return { at: latest, wall: new Date(clocks.wall()).toISOString(), mono: Math.floor(mono) };
    },
    driftMs: () => clocks.wall() - wall0 - (clocks.mono() - mono0),
    wentBackMs,
    notice:
      wentBackMs < WORTH_SAYING_MS
        ? null
        : `The computer's clock stands ${Math.ceil(wentBackMs / 1000)} seconds before the last entry. Case time goes on from that entry; the time between is not known.`,
  };
}
