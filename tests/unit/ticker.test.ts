import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { AT_REST, earView, runsOut } from '../../assistant/app/hearing-state.ts';
import { Ticker } from '../../assistant/app/ticker.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

it('looks only when woken, and again while there is more to come', () => {
  let more = 3;
  let looks = 0;
  const ticker = new Ticker(200, () => {
    looks += 1;
    more -= 1;
    return more > 0;
  });
  vi.advanceTimersByTime(1_000);
  expect(looks).toBe(0);
  // Woken as often as anything changes, it looks once.
  ticker.wake();
  ticker.wake();
  vi.advanceTimersByTime(199);
  expect(looks).toBe(0);
  vi.advanceTimersByTime(1);
  expect(looks).toBe(1);
  vi.advanceTimersByTime(10_000);
  expect(looks).toBe(3);
  expect(vi.getTimerCount()).toBe(0);
  ticker.wake();
  vi.advanceTimersByTime(10_000);
  expect(looks).toBe(4);
});

it('goes on while the ear shows what will pass by itself, and no longer', () => {
  const on = { ...AT_REST, phase: 'on' } as const;
  const state = { ...on, speechSinceMs: 500, speakingUntilMs: 300, openUntilMs: 10_000 };
  const shown = [100, 400, 600, 9_000, 10_000].map((now) => earView(state, now));
  expect(shown.map((view) => [view.kind, runsOut(view)])).toEqual([
    ['speaking', true],
    ['hearing', true],
    ['hearing', true],
    ['awake', true],
    ['asleep', false],
  ]);
  expect(runsOut(earView(AT_REST, 0))).toBe(false);
  expect(runsOut(earView({ ...on, phase: 'starting' }, 0))).toBe(false);
});
