import { expect, test } from 'vitest';
import { barMarks, byUrgency, dwellTime, dwellWords } from '../../assistant/screens/dwell-words.ts';
import type { DwellView } from '../../machines/contract/index.ts';

const dwell: DwellView = {
  step: 'cleaner',
  title: 'Alkaline cleaner',
  tooth: '46',
  elapsedMs: 0,
  minMs: 15_000,
  targetMs: 20_000,
  maxMs: 60_000,
  phase: 'short',
  held: false,
};

test('each part of the window is told in words and by a shape of its own', () => {
  const at = (elapsedMs: number, more: Partial<DwellView>): readonly string[] => {
    const { shape, state, hint } = dwellWords({ ...dwell, elapsedMs, ...more });
    return [shape, state, hint];
  };
  expect(at(12_400, {})).toEqual(['early', 'Too early', '3 s to the minimum']);
  expect(at(16_000, { phase: 'right' })).toEqual(['right', 'Long enough', '4 s to the aim']);
  expect(at(24_100, { phase: 'right' })).toEqual(['right', 'On time', 'End within 36 s']);
  expect(at(24_100, { phase: 'right', maxMs: null })).toEqual([
    'right',
    'On time',
    'End when ready',
  ]);
  expect(at(61_000, { phase: 'long' })).toEqual(['long', 'Too long', 'End it now']);
  expect(at(61_000, { phase: 'long', held: true })).toEqual([
    'held',
    'Held',
    'The time stands still',
  ]);
});

test('a dwell is counted in one way from start to end, so that nothing beside it moves', () => {
  const shown = (elapsedMs: number, maxMs: number | null, targetMs = 20_000): string =>
    dwellTime({ ...dwell, elapsedMs, maxMs, targetMs });
  expect([shown(0, 60_000), shown(59_999, 60_000), shown(75_000, 60_000)]).toEqual([
    '0',
    '59',
    '75',
  ]);
  expect([shown(7_000, 180_000), shown(75_000, 180_000)]).toEqual(['0:07', '1:15']);
  expect(shown(7_000, null, 100_000)).toBe('0:07');
});

test('the bar ends a tenth beyond the maximum, and holds what lies beyond', () => {
  expect(barMarks({ ...dwell, elapsedMs: 33_000 })).toEqual({
    elapsed: 50,
    min: 22.73,
    target: 30.3,
    max: 90.91,
  });
  expect(barMarks({ ...dwell, elapsedMs: 600_000, maxMs: null })).toEqual({
    elapsed: 100,
    min: 60,
    target: 80,
    max: null,
  });
});

test('the dwell that is due first leads; a held one waits', () => {
  const of = (tooth: string, elapsedMs: number, held = false): DwellView => ({
    ...dwell,
    tooth,
    elapsedMs,
    held,
  });
  const order = byUrgency([of('11', 40_000, true), of('12', 5_000), of('13', 19_000)]);
  expect(order.map(({ tooth }) => tooth)).toEqual(['13', '12', '11']);
});
