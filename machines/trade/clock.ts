import { judgement, memory, practice } from './number.ts';
import type { Quantity, Span } from './number.ts';

/** How cement times move with temperature, and what the standards allow. */
export const CLOCK = {
  q10: {
    min: 1.6,
    target: 2,
    max: 2.5,
    unit: 'ratio',
    ...judgement,
    note: 'planning only: t(T) = t(23) times Q10 to the power (23 - T)/10',
  },
  reference: { value: 23, unit: 'C', ...practice, note: 'where working times are given' },
  acclimatise: {
    min: 900,
    target: 1800,
    max: null,
    unit: 's',
    ...practice,
    note: 'cement out of the refrigerator before use',
  },
  leastWorkingResin: {
    value: 60,
    unit: 's',
    ...memory('ISO4049'),
    note: 'self and dual cure resin; self-adhesive is outside that scope',
  },
  mostSettingResin: {
    value: 600,
    unit: 's',
    ...memory('ISO4049'),
    note: 'self and dual cure resin',
  },
  leastWorkingModified: {
    value: 90,
    unit: 's',
    ...memory('ISO9917-2'),
    note: 'resin-modified, luting',
  },
} as const satisfies Readonly<Record<string, Quantity | Span>>;
