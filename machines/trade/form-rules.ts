import { computed, judgement, memory, practice, published } from './number.ts';
import type { Quantity, Span } from './number.ts';

/** Rules of retention and resistance form. */
export const FORM_RULES = {
  ratio: {
    value: 0.4,
    unit: 'ratio',
    ...published('Goodacre01'),
    note: 'height over faciolingual base, at least',
  },
  heightMolar: { value: 4, unit: 'mm', ...published('Goodacre01'), note: 'molar, at least' },
  heightOther: {
    value: 3,
    unit: 'mm',
    ...published('Goodacre01'),
    note: 'incisor, canine, premolar, at least',
  },
  convergence: {
    min: 10,
    target: 15,
    max: 20,
    unit: 'deg',
    ...published('Goodacre01'),
    note: 'total occlusal convergence; the aim is the middle',
    apart: { target: computed },
  },
  heightAlone: {
    value: 4,
    unit: 'mm',
    ...practice,
    note: 'from here up form holds by itself, whatever the height to base ratio, as long as the convergence is within the limit',
  },
  grooveShare: {
    value: 0.5,
    unit: 'ratio',
    ...judgement,
    note: 'of the base counts with a proximal groove or box: an optimistic bound, it leaves out height and length of the groove',
  },
  taperReference: {
    value: 5,
    unit: 'deg',
    ...computed,
    note: 'convergence at which relative retention is 1',
  },
  taperClamp: {
    value: 6,
    unit: 'deg',
    ...published('Wilson94'),
    note: 'below it less taper gives no more retention: zinc phosphate peaked at 6 to 12 degrees',
  },
  taperAcidBase: {
    value: 0.425,
    unit: 'ratio',
    ...computed,
    note: 'exponent fitted to zinc phosphate, -25.5 % from 5 to 10 degrees (Yun 2013)',
  },
  taperResin: {
    value: 0.231,
    unit: 'ratio',
    ...computed,
    note: 'exponent fitted to resin, -14.8 % for 5 degrees (Yun 2013)',
  },
  stress: {
    min: 1.42,
    target: 2.47,
    max: 2.71,
    unit: 'MPa',
    ...published('BMC22'),
    note: 'three resin systems on zirconia, 20 degrees, 3 mm wall, over lateral and top area',
  },
  film: {
    value: 25,
    unit: 'um',
    ...memory('ISO9917-1'),
    note: 'film of an acid-base luting cement, at most (resin 50, ISO 4049); measured 26 to 30 (Kious 2009)',
  },
  spacer: {
    min: 20,
    target: 30,
    max: 40,
    unit: 'um',
    ...practice,
    note: 'ending 0.5 to 1 mm short of the margin; the aim is the middle',
    apart: { target: computed },
  },
  ferrule: {
    min: 1.5,
    target: 2,
    max: null,
    unit: 'mm',
    ...memory('Juloski12'),
    note: 'sound tooth round a core',
  },
  marginGap: { value: 120, unit: 'um', ...memory('McLean71'), note: 'acceptable margin, at most' },
} as const satisfies Readonly<Record<string, Quantity | Span>>;
