import { describe, expect, it } from 'vitest';
import { makeCaseClock } from '../../assistant/store/clock.ts';
import type { Clocks } from '../../assistant/store/clock.ts';

const NINE = Date.UTC(2026, 1, 3, 9, 0, 0);

/** Clocks a test sets by hand, ms. */
function handClocks(wall: number, mono = 0): Clocks & { set(wall: number, mono: number): void } {
  let now = { wall, mono };
  return {
    wall: () => now.wall,
    mono: () => now.mono,
    set(wallMs, monoMs) {
      now = { wall: wallMs, mono: monoMs };
    },
  };
}

describe('case clock', () => {
  it('starts a case at 0 and follows the monotonic clock, in whole milliseconds', () => {
    const clocks = handClocks(NINE, 812.7);
    const clock = makeCaseClock(clocks, null);
    expect(clock.now()).toEqual({ at: 0, wall: '2026-02-03T09:00:00.000Z', mono: 812 });
    clocks.set(NINE + 20_000, 20_812.9);
    expect(clock.now()).toEqual({ at: 20_000, wall: '2026-02-03T09:00:20.000Z', mono: 20_812 });
    expect(clock.notice).toBeNull();
  });

  it('goes on from the last entry by the wall clock after a reload', () => {
    const last = { at: 65_000, wall: '2026-02-03T09:01:05.000Z' };
    const clocks = handClocks(NINE + 78_500, 40);
    const clock = makeCaseClock(clocks, last);
    expect(clock.now().at).toBe(78_500);
    clocks.set(NINE + 80_000, 1540);
    expect(clock.now().at).toBe(80_000);
  });

  it('goes on from the opening when no entry was made before the reload', () => {
    const clock = makeCaseClock(handClocks(NINE + 3000), null, '2026-02-03T09:00:00.000Z');
    expect(clock.now().at).toBe(3000);
  });

  it('does not care when the wall clock jumps in a session, and tells by how much', () => {
    const clocks = handClocks(NINE);
    const clock = makeCaseClock(clocks, null);
    clocks.set(NINE - 3_600_000 + 5000, 5000);
    expect(clock.now()).toEqual({ at: 5000, wall: '2026-02-03T08:00:05.000Z', mono: 5000 });
    expect(clock.driftMs()).toBe(-3_600_000);
    clocks.set(NINE + 7_200_000 + 6000, 6000);
    expect(clock.now().at).toBe(6000);
    expect(clock.driftMs()).toBe(7_200_000);
  });

  it('goes on from the last entry, and says so, when the clock went back between sessions', () => {
    const last = { at: 65_000, wall: '2026-02-03T09:01:05.000Z' };
    const clock = makeCaseClock(handClocks(NINE), last);
    expect(clock.now().at).toBe(65_000);
    expect(clock.wentBackMs).toBe(65_000);
    expect(clock.notice).toBe(
      "The computer's clock stands 65 seconds before the last entry. Case time goes on from that entry; the time between is not known.",
    );
  });

  it('passes over the few milliseconds a time server takes back', () => {
    const last = { at: 1000, wall: '2026-02-03T09:00:01.000Z' };
    const clock = makeCaseClock(handClocks(NINE + 990), last);
    expect([clock.now().at, clock.notice]).toEqual([1000, null]);
  });

  it('does not move with daylight saving: wall times are UTC', () => {
    // 2026-03-29, 01:00 UTC: clocks in central Europe go from 02:00 to 03:00.
    const last = { at: 0, wall: '2026-03-29T00:59:50.000Z' };
    const clock = makeCaseClock(handClocks(Date.UTC(2026, 2, 29, 1, 0, 10)), last);
    expect(clock.now().at).toBe(20_000);
  });
});
