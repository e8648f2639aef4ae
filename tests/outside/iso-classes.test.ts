import { describe, expect, test } from 'vitest';
import { MATERIAL_TABLE, TRADE } from '../../machines/trade/index.ts';

// ISO 6872:2015, Table 1 (from memory; toughness may be informative): least flexural strength, MPa, and toughness.
const CLASSES: Readonly<Record<number, readonly [mpa: number, toughness: number]>> = {
  1: [50, 0.7],
  2: [100, 1],
  3: [300, 2],
  4: [500, 3.5],
  5: [800, 5],
};

describe('every ceramic is as strong as the class it is planned in', () => {
  const classed = Object.entries(MATERIAL_TABLE).flatMap(
    ([name, { isoClass, flexural, toughness }]) =>
      isoClass === null || flexural === null || toughness === null
        ? []
        : [[name, isoClass.value, flexural, toughness] as const],
  );
  test.each(classed)('%s, class %i', (_, id, flexural, toughness) => {
    const [mpa, least] = CLASSES[id] ?? [Infinity, Infinity];
    expect(flexural.min).toBeGreaterThanOrEqual(mpa);
    expect(toughness.max).toBeGreaterThanOrEqual(least);
  });
  test('metals and resin-matrix ceramic are outside the standard', () => {
    const outside = Object.entries(MATERIAL_TABLE).flatMap(([name, { isoClass }]) =>
      isoClass === null ? [name] : [],
    );
    expect(outside.toSorted()).toEqual([
      'base-metal',
      'metal-ceramic-base',
      'metal-ceramic-noble',
      'noble-metal',
      'resin-matrix',
      'titanium',
    ]);
  });
});

// ISO 4049:2019, 9917-1:2007 and 9917-2:2017, from memory; self-adhesive cements are outside ISO 4049 (read).
describe('cement times', () => {
  test('resins that set by themselves work for 60 s or more, and set within 10 min', () => {
    for (const id of ['adhesive-resin-dual', 'adhesive-resin-self'] as const) {
      const { working, setting } = TRADE.cements[id];
      expect([working.min ?? 0, setting.max ?? 0]).toEqual([
        expect.toSatisfy((s: number) => s >= 60),
        expect.toSatisfy((s: number) => s <= 600),
      ]);
    }
  });
  test('glass ionomer sets within 8 min; zinc phosphate begins to within 8 min, its longest is practice', () => {
    expect(TRADE.cements['glass-ionomer'].setting.max).toBeLessThanOrEqual(480);
    expect(TRADE.cements['zinc-phosphate'].setting.min).toBeLessThanOrEqual(480);
  });
  test('luting film 25 micrometres at most; Kious AR et al. J Prosthet Dent 2009;101:189-192 measured under 26 at 2 min', () => {
    expect(TRADE.form.film.value).toBe(25);
  });
});
