import type { Substrate as SubstrateId } from '../contract/index.ts';
import { judgement, practice } from './number.ts';
import type { Span } from './number.ts';

/** What the prep is made of, and how long phosphoric acid (35 to 37 %) may stay on it. */
export interface Substrate {
  readonly name: string;
  readonly etch: Span;
  readonly rinse: Span;
  /** How to etch it for an adhesive resin with a universal adhesive. */
  readonly how: string;
  readonly note: string | null;
}

/** Every substrate a crown can be planned on. */
export const SUBSTRATE_TABLE = {
  dentin: {
    name: 'dentin',
    etch: {
      min: 10,
      target: 12,
      max: 15,
      unit: 's',
      ...judgement,
      note: 'never above 15 s on dentin; called at 12 s so that the rinse is on by 15; the least is judgement',
      apart: { max: practice },
    },
    rinse: {
      min: 10,
      target: 15,
      max: null,
      unit: 's',
      ...practice,
      note: 'then leave it moist, blotted: overdried collagen collapses',
    },
    how: 'Acid on the enamel margin; what runs on to dentin is off within 15 seconds.',
    note: null,
  },
  enamel: {
    name: 'enamel',
    etch: {
      min: 15,
      target: 20,
      max: 30,
      unit: 's',
      ...practice,
      note: 'cut enamel; the aim inside the window is judgement',
      apart: { target: judgement },
    },
    rinse: { min: 15, target: 15, max: null, unit: 's', ...practice, note: 'then dry to frost' },
    how: 'Acid on all the enamel.',
    note: null,
  },
  'composite-core': {
    name: 'composite core',
    etch: {
      min: 15,
      target: 15,
      max: 30,
      unit: 's',
      ...practice,
      note: 'cleans the core; the most is judgement, and dentin at the margin takes 15 s only',
      apart: { max: judgement },
    },
    rinse: { min: 15, target: 15, max: null, unit: 's', ...practice, note: 'then dry' },
    how: 'Acid on the core to clean it; keep it off dentin at the margin, or off again within 15 seconds.',
    note: 'Composite core: roughen it (fine diamond, or 50 micrometre alumina with dam and suction); silane on the core before the adhesive is optional.',
  },
} as const satisfies Readonly<Record<SubstrateId, Substrate>>;
