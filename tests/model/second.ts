import type { StepId } from '../../machines/contract/index.ts';

/** Answers a rule of a gate has, and that another rule of it always gives first; with the reason. */
export const SECOND: readonly { readonly because: string; readonly never: readonly string[] }[] = [
  {
    because:
      'what a plan does not have is wrong for the ceramic, not on the shelf, or follows what never came',
    never: [
      'begin.abrade: not-planned',
      'begin.acid-clean: not-planned',
      'begin.bond-thin: not-planned',
      'begin.cleaner: not-planned',
      'begin.porcelain-etch: not-planned',
      'begin.primer-dry: not-planned',
      'begin.tooth-etch-rinse: not-planned',
      'begin.tooth-etch: not-planned',
      'begin.zirconia-primer: not-planned',
      'finish.abrade: not-planned',
      'finish.bond-thin: not-planned',
      'finish.porcelain-etch: not-planned',
      'finish.primer-dry: not-planned',
      'finish.tooth-etch-rinse: not-planned',
    ],
  },
  {
    because: 'while it runs the surface is under it: not rinsed, wet, or not etched is said first',
    never: [
      'begin.acid-clean: dwell-running',
      'begin.bond: dwell-running',
      'begin.cleaner: dwell-running',
      'begin.porcelain-etch: dwell-running',
      'begin.silane: dwell-running',
      'begin.zirconia-primer: dwell-running',
      'begin.silane: intaglio-busy',
      'begin.zirconia-primer: intaglio-busy',
    ],
  },
  {
    because: 'the other ceramic: that it never suits it is said first',
    never: [
      'begin.acid-clean: silicone-needs-abrasion',
      'begin.acid-clean: cleaner-on-glass',
      'begin.cleaner: silicone-needs-etch',
      'begin.silane: silicone-needs-abrasion',
      'begin.zirconia-primer: silicone-needs-etch',
      'begin.zirconia-primer: intaglio-not-conditioned',
    ],
  },
  {
    because: 'law 2 says it first: the agent is still on',
    never: ['begin.abrade: not-rinsed'],
  },
  {
    because:
      'without hydrofluoric acid the glass is never conditioned; without phosphoric acid none is planned',
    never: ['begin.silane: not-on-shelf', 'begin.tooth-etch: not-on-shelf'],
  },
  {
    because:
      'the field is opened only after the set, and a crown with cement in it was conditioned before it was soiled',
    never: [
      'begin.mix: field-open',
      'begin.seat: field-open',
      'begin.load: intaglio-not-conditioned',
    ],
  },
];

/** Steps without a dwell: there is nothing to cut short. */
export const WITHOUT_DWELL: readonly StepId[] = [
  'provisional-off',
  'prep-clean',
  'try-in',
  'fit-paste',
  'take-out',
  'isolate',
  'pumice',
  'prep-moist',
  'mix',
  'load',
  'flash',
  'floss',
  'gel',
  'isolation-out',
];
