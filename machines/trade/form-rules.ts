import { computed, memory, practice, published } from './number.ts';
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
  marginGap: { value: 120, unit: 'um', ...memory('McLean71'), note: 'acceptable margin, at most' },
} as const satisfies Readonly<Record<string, Quantity | Span>>;
