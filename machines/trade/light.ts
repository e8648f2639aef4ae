import { judgement, memory, practice, published } from './number.ts';
import type { Quantity, Span } from './number.ts';

/** Light curing. Radiant exposure in J/cm2 is irradiance in mW/cm2 times seconds over 1000. */
export const LIGHT = {
  dose: {
    min: 8,
    target: 16,
    max: null,
    unit: 'J/cm2',
    ...practice,
    note: 'resin cement film, at the cement',
    apart: { target: published('BOR15') },
  },
  reflection: {
    value: 0.1,
    unit: 'ratio',
    ...judgement,
    note: 'lost at the ceramic surface',
  },
  longest: {
    value: 60,
    unit: 's',
    ...judgement,
    note: 'a surface: above it light alone is not relied on',
  },
  surface: {
    min: 20,
    target: 40,
    max: 60,
    unit: 's',
    ...practice,
    note: '20 s a surface at 1000 mW/cm2 or more, 40 s where thick or dark; the most is judgement',
    apart: { max: judgement },
  },
  reference: {
    value: 1000,
    unit: 'mW/cm2',
    ...practice,
    note: 'the 20 s a surface hold from here up; below it they lengthen in proportion',
  },
  alarm: {
    value: 800,
    unit: 'mW/cm2',
    ...practice,
    note: 'below: have the light seen to. Handheld radiometers are relative, not absolute',
  },
  stop: {
    value: 400,
    unit: 'mW/cm2',
    ...practice,
    note: 'below: do not cure with it',
  },
  drift: {
    value: 0.8,
    unit: 'ratio',
    ...practice,
    note: 'of the baseline reading: below, have the light seen to. Read it weekly at least (NIOM)',
  },
  dark: {
    min: 0.1,
    target: 0.2,
    max: 0.3,
    unit: '1/mm',
    ...judgement,
    note: 'added loss of a shade of A3.5 or darker; the aim is the middle',
  },
  burst: {
    value: 20,
    unit: 's',
    ...practice,
    note: 'longest burst: 5.5 degrees in the pulp harmed 15 % (Zach 1965, from memory)',
  },
  pause: {
    min: 2,
    target: 3,
    max: 5,
    unit: 's',
    ...practice,
    note: 'between bursts, air stream; the aim inside the window is judgement',
    apart: { target: judgement },
  },
  tackQuarter: {
    min: 1,
    target: 2,
    max: 3,
    unit: 's',
    ...practice,
    note: 'each quarter, tip 5 to 10 mm away, keep moving; the aim is judgement',
    apart: { target: judgement },
  },
  quarters: { value: 4, unit: 'ratio', ...practice, note: 'quarters of the margin' },
  pulpRise: {
    value: 5.5,
    unit: 'C',
    ...memory('Zach65'),
    note: '15 % necrosis in monkeys; 11.1 gave 60 %',
  },
} as const satisfies Readonly<Record<string, Quantity | Span>>;
