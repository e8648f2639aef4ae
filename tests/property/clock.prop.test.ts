import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeCaseClock } from '../../assistant/store/clock.ts';
import type { LastSeen } from '../../assistant/store/clock.ts';

const YEAR = 365 * 24 * 3600 * 1000;

/** What happens to the machine's clocks: time passes, the wall clock is set, the page is loaded anew. */
const events = fc.array(
  fc.oneof(
    fc.record({
      kind: fc.constant('pass' as const),
      ms: fc.double({ min: 0, max: 600_000, noNaN: true }),
    }),
    fc.record({ kind: fc.constant('set' as const), ms: fc.integer({ min: -YEAR, max: YEAR }) }),
    fc.record({ kind: fc.constant('reload' as const), ms: fc.integer({ min: 0, max: 60_000 }) }),
  ),
  { maxLength: 60 },
);

describe('case time', () => {
  it('never goes back, and is the true time passed wherever the wall clock was left alone', () => {
    fc.assert(
      fc.property(events, (all) => {
        let wall = Date.UTC(2026, 5, 1);
        let mono = 17.25;
        let passed = 0;
        let set = false;
        let last: LastSeen | null = null;
        const clocks = { wall: () => wall, mono: () => mono };
        let clock = makeCaseClock(clocks, null);
        last = clock.now();
        for (const { kind, ms } of all) {
          if (kind === 'set') set = true;
          if (kind !== 'set') passed += ms;
          wall += ms;
          if (kind === 'pass') mono += ms;
          if (kind === 'reload') {
            mono = 0;
            clock = makeCaseClock(clocks, last);
          }
          const now = clock.now();
          expect(now.at).toBeGreaterThanOrEqual(last.at);
          // Every session may lose the fraction of a millisecond that an entry does not keep.
          if (!set) expect(Math.abs(now.at - passed)).toBeLessThanOrEqual(all.length + 1);
          last = now;
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('is the monotonic clock’s within a session, however the wall clock is set', () => {
    fc.assert(
      fc.property(events, fc.nat(YEAR), (all, at) => {
        let wall = Date.UTC(2026, 5, 1);
        let mono = 0;
        const last = { at, wall: new Date(wall).toISOString() };
        const clock = makeCaseClock({ wall: () => wall, mono: () => mono }, last);
        for (const { kind, ms } of all) {
          if (kind === 'set') wall += ms;
          else {
            wall += ms;
            mono += ms;
          }
          expect(clock.now().at).toBe(Math.floor(at + mono));
        }
      }),
      { numRuns: 2000 },
    );
  });
});
