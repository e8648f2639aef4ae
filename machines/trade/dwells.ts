import type { StepId } from '../contract/index.ts';
import { judgement, practice, published } from './number.ts';
import type { Span } from './number.ts';

/** A timed step: its window, and whether it may be held. */
export interface TimedStep {
  readonly span: Span;
  /** True for a rinse, a light, air: nothing works on while it is held. */
  readonly holdable: boolean;
}

const seconds = (min: number, target: number, max: number | null) =>
  ({ min, target, max, unit: 's' }) as const;

/** A primer's window is the same on every ceramic, alloy and abutment; what it binds by is not. */
const primer = (note: string): TimedStep => ({
  span: {
    ...seconds(20, 30, 60),
    ...practice,
    note: `${note}; the aim inside the window is judgement`,
    apart: { target: judgement },
  },
  holdable: false,
});

/** Times that are the same for every material and substrate. */
export const DWELLS = {
  'intaglio-rinse': {
    span: {
      ...seconds(20, 20, null),
      ...practice,
      note: 'water spray 20 to 30 s; it prepares for cleaning and does not replace it',
    },
    holdable: true,
  },
  cleaner: {
    span: {
      ...seconds(20, 20, 60),
      ...practice,
      note: 'alkaline zirconia suspension, pH 13 to 13.5; the most is judgement: it must not dry on',
      apart: { max: judgement },
    },
    holdable: false,
  },
  'cleaner-rinse': {
    span: { ...seconds(20, 20, null), ...judgement, note: 'until no white trace is left' },
    holdable: true,
  },
  'acid-clean': {
    span: {
      ...seconds(60, 60, 120),
      ...practice,
      note: '37 % phosphoric acid on a pre-etched glass-ceramic; the most is judgement',
      apart: { max: judgement },
    },
    holdable: false,
  },
  'acid-clean-rinse': {
    span: { ...seconds(30, 30, null), ...judgement, note: 'all gel off' },
    holdable: true,
  },
  'porcelain-etch-rinse': {
    span: {
      ...seconds(30, 60, null),
      ...practice,
      note: '30 to 60 s; residue must come off; aim: its upper end',
    },
    holdable: true,
  },
  'intaglio-dry': {
    span: { ...seconds(5, 10, null), ...judgement, note: 'oil-free air, until matt' },
    holdable: true,
  },
  silane: {
    span: { ...seconds(60, 60, 180), ...practice, note: '60 to 180 s' },
    holdable: false,
  },
  'zirconia-primer': primer('10-MDP 20 to 60 s'),
  'metal-primer': primer('sulfur monomer, 10-MDP or 4-META 20 to 60 s'),
  'core-primer': primer('as on an alloy restoration'),
  'abutment-primer': primer('10-MDP 20 to 60 s'),
  'base-abrade': {
    span: {
      ...seconds(10, 15, 20),
      ...judgement,
      note: '50 um, 2 bar; seconds as on an alloy restoration',
    },
    holdable: true,
  },
  'prep-dry': {
    span: { ...seconds(5, 5, null), ...practice, note: 'gentle oil-free air' },
    holdable: true,
  },
  'primer-dry': {
    span: { ...seconds(5, 5, null), ...practice, note: 'gentle oil-free air' },
    holdable: true,
  },
  'dry-check': {
    span: { ...seconds(30, 30, null), ...practice, note: 'watched without a break' },
    holdable: false,
  },
  bond: {
    span: {
      ...seconds(20, 20, null),
      ...practice,
      note: 'scrubbed in; 40 s helped after an aluminium chloride astringent',
      apart: { max: published('Kuphasuk07') },
    },
    holdable: false,
  },
  'bond-thin': {
    span: { ...seconds(5, 5, null), ...practice, note: 'until no ripple moves' },
    holdable: true,
  },
  seat: {
    span: {
      ...seconds(30, 45, 60),
      ...practice,
      note: 'firm axial pressure, no motion; the aim inside the window is judgement',
      apart: { target: judgement },
    },
    holdable: false,
  },
} as const satisfies Partial<Readonly<Record<StepId, TimedStep>>>;
export type TimedStepId = keyof typeof DWELLS;
