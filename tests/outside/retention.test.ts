import { describe, expect, test } from 'vitest';
import {
  convergence,
  frustum,
  groovedConvergence,
  lastConvergence,
  limitingConvergence,
  relativeRetention,
  retentionN,
  seatingLift,
} from '../../machines/form/index.ts';
import { TRADE } from '../../machines/trade/index.ts';

const { form } = TRADE;
const rounded = (value: number | null, places: number): number | null =>
  value === null ? null : Number(value.toFixed(places));

describe('limiting taper, by brute force over the wall instead of by the formula', () => {
  /** Share of the opposing wall's points whose radius from the pivot stands at least at the wall's taper. */
  const resisting = (height: number, base: number, toc: number): number => {
    const phi = (toc * Math.PI) / 360;
    const points = 1999;
    let held = 0;
    for (let point = 1; point <= points; point += 1) {
      const h = (height * point) / points;
      if (Math.atan2(h, base - h * Math.tan(phi)) >= phi) held += 1;
    }
    return held / points;
  };
  test.each([
    [3, 10],
    [4, 10],
    [3.5, 10],
    [4, 9],
  ])(
    'H %f, B %f: half the wall at the limit (Parker MH et al. J Prosthet Dent 1988;59:281-288, from memory)',
    (h, b) => {
      expect(resisting(h, b, limitingConvergence(h, b))).toBeCloseTo(0.5, 2);
      expect(resisting(h, b, lastConvergence(h, b) ?? 0)).toBeLessThan(0.002);
      expect(resisting(h, b, (lastConvergence(h, b) ?? 0) - 1)).toBeGreaterThan(0);
    },
  );
});

test('the two wall tapers add up; above half as high as wide some point always resists', () => {
  expect(convergence(6, 8)).toBe(14);
  expect([lastConvergence(6, 10), rounded(lastConvergence(5, 10), 6)]).toEqual([null, 90]);
});

// Computed; the groove is counted at half the base: an optimistic bound by judgement.
test('a groove on B 10: H 3 from 17.46 to 36.87 degrees, H 2.5 from 14.48 to 30.00', () => {
  const share = form.grooveShare.value;
  expect([3, 2.5].map((h) => rounded(limitingConvergence(h, 10), 2))).toEqual([17.46, 14.48]);
  expect([3, 2.5].map((h) => rounded(groovedConvergence(h, 10, share), 2))).toEqual([36.87, 30]);
});

// BMC Oral Health 2022, doi 10.1186/s12903-022-02223-0: 1.42, 2.47 and 2.71 MPa at 20 degrees and 3 mm.
// Base width 9 mm assumed: total area 130.6 mm2, hence 185, 323 and 354 N.
test('retention of three resin systems from their published stress', () => {
  const { lateralArea, topArea } = frustum(9, 3, 20);
  const area = lateralArea + topArea;
  expect(rounded(area, 1)).toBe(130.6);
  const { min, target, max } = form.stress;
  expect([min, target, max].map((mpa) => Math.round(retentionN(mpa, area)))).toEqual([
    185, 323, 354,
  ]);
});

describe('retention against convergence', () => {
  const at = (exponent: number, clampDeg: number) =>
    [2.5, 5, 10, 15, 20, 25, 30].map((toc) =>
      rounded(relativeRetention(toc, { exponent, referenceDeg: 5, clampDeg }), 2),
    );
  test('Joergensen KD. Acta Odontol Scand 1955;13:35-40 (from memory): a hyperbola', () => {
    expect(at(1, 0)).toEqual([2, 1, 0.5, 0.33, 0.25, 0.2, 0.17]);
  });
  test('Yun JH et al. J Korean Acad Prosthodont 2013;51:99-106: zinc phosphate -25.5 % from 5 to 10 degrees, resin -14.8 %', () => {
    expect(at(form.taperAcidBase.value, 0)).toEqual([1.34, 1, 0.74, 0.63, 0.55, 0.5, 0.47]);
    expect(at(form.taperResin.value, 0)).toEqual([1.17, 1, 0.85, 0.78, 0.73, 0.69, 0.66]);
  });
  test('Wilson AH, Chan DC. J Prosthodont 1994;3:74-78: no gain below 6 degrees', () => {
    const clamped = at(form.taperAcidBase.value, form.taperClamp.value);
    expect(clamped[0]).toBe(clamped[1]);
  });
});

// Computed from the geometry: 25 micrometres of film and no spacer.
test('seating lift at wall tapers of 3, 5, 6 and 10 degrees: 478, 287, 239, 144 micrometres', () => {
  expect([6, 10, 12, 20].map((toc) => Math.round(seatingLift(25, 0, toc)))).toEqual([
    478, 287, 239, 144,
  ]);
  expect([seatingLift(25, 30, 12), seatingLift(25, 0, 0)]).toEqual([0, Infinity]);
});
