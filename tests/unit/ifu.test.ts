import { expect, test } from 'vitest';
import { withIfu } from '../../machines/plan/ifu.ts';

const base = { minS: 15, targetS: 20, maxS: 30 };

test.each([
  ['a target alone is the minimum too and keeps the slack', { targetS: 60 }, [60, 60, 70]],
  ['a shorter target brings the window down', { targetS: 10 }, [10, 10, 20]],
  ['a minimum moves the target up', { minS: 40 }, [40, 40, 50]],
  ['a maximum moves the target down', { maxS: 12 }, [12, 12, 12]],
  ['all three stand as given', { minS: 5, targetS: 6, maxS: 7 }, [5, 6, 7]],
  ['none: as it was', {}, [15, 20, 30]],
])('%s', (_, ifu, [minS, targetS, maxS]) => {
  expect(withIfu(base, ifu)).toEqual({ minS, targetS, maxS });
});

test('a window without an end stays without one', () => {
  expect(withIfu({ ...base, maxS: null }, { targetS: 40 })).toEqual({
    minS: 40,
    targetS: 40,
    maxS: null,
  });
});
