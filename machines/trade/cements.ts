import type { CementClass } from '../contract/index.ts';
import { judgement, practice } from './number.ts';
import type { Span } from './number.ts';

/** A class of luting cement. Times count from the start of the mix. */
export interface CementTable {
  readonly name: string;
  readonly family: 'acid-base' | 'adhesive' | 'self-adhesive';
  /** Working time at 23 degrees C. The plan uses the shortest: a late seat can't be taken back. */
  readonly working: Span;
  /** Setting time in the mouth. The plan uses the longest: waiting harms nothing. */
  readonly setting: Span;
  /** When excess comes off. */
  readonly gel: Span;
  /** How excess is when it comes off: like rubber, doughy and brittle, or fully hard. */
  readonly excess: 'rubber' | 'doughy' | 'hard';
  /** Bonds to a silane or phosphate primer; an acid-base cement sits on the clean surface. */
  readonly takesPrimer: boolean;
  /** Set by light where light reaches. */
  readonly lightCured: boolean;
  /** Sets without light. */
  readonly setsAlone: boolean;
  /** Oxygen keeps its surface soft: glycerine gel over the margins. */
  readonly oxygenInhibited: boolean;
  /** Holds only on a prep whose form holds by itself. */
  readonly needsForm: boolean;
  readonly moisture: 'bonded' | 'moist' | 'damp' | 'dry';
  /** Oxygen that peroxide left in the tooth keeps it from bonding. */
  readonly peroxideSpoils: boolean;
  /** When the patient may chew. */
  readonly aftercare: string;
  /** How it is mixed and kept from trouble; sentences. */
  readonly notes: readonly string[];
}

const minutes = (min: number, max: number, note: string): Span => ({
  min: min * 60,
  target: ((min + max) / 2) * 60,
  max: max * 60,
  unit: 's',
  ...practice,
  note: `${note}; the aim is the middle`,
  apart: { target: judgement },
});

const AT_23 = 'from mix, at 23 degrees C';
const IN_MOUTH = 'from mix, in the mouth';
const UNLIT = 'from mix, in the mouth, without light';
const ONE_HOUR = 'No chewing on it for one hour.';
const ONE_DAY = 'Nothing sticky or hard for 24 hours.';

/** What acid-base cements have in common. */
const ACID_BASE = {
  family: 'acid-base',
  takesPrimer: false,
  lightCured: false,
  setsAlone: true,
  oxygenInhibited: false,
  peroxideSpoils: false,
  needsForm: true,
  aftercare: ONE_DAY,
} as const satisfies Partial<CementTable>;

/** What resin cements have in common. */
const RESIN = {
  takesPrimer: true,
  oxygenInhibited: true,
  peroxideSpoils: true,
  excess: 'rubber',
  aftercare: ONE_HOUR,
  notes: [],
} as const satisfies Partial<CementTable>;

/** Every cement class a plan can use. */
export const CEMENT_TABLE: Readonly<Record<CementClass, CementTable>> = {
  'zinc-phosphate': {
    ...ACID_BASE,
    name: 'zinc phosphate',
    working: minutes(3, 6, `${AT_23}, on a cool slab`),
    setting: minutes(5, 9, IN_MOUTH),
    gel: minutes(5, 8, 'from mix, when fully hard'),
    excess: 'hard',
    moisture: 'dry',
    notes: [
      'Zinc phosphate: cool dry slab, powder in small portions over the whole slab; a warm slab takes working time away. It holds by form alone: no bond.',
    ],
  },
  'glass-ionomer': {
    ...ACID_BASE,
    name: 'glass ionomer',
    working: minutes(2, 3.5, AT_23),
    setting: minutes(4, 7, IN_MOUTH),
    gel: minutes(3, 5, 'from mix, when doughy and brittle'),
    excess: 'doughy',
    moisture: 'damp',
    notes: ['Glass ionomer: never dry the dentin out.'],
  },
  'resin-modified-glass-ionomer': {
    ...ACID_BASE,
    name: 'resin-modified glass ionomer',
    peroxideSpoils: true,
    working: minutes(2, 3, AT_23),
    setting: minutes(3, 5, IN_MOUTH),
    gel: minutes(2, 3, 'from mix'),
    excess: 'rubber',
    moisture: 'damp',
    notes: [],
  },
  'calcium-aluminate': {
    ...ACID_BASE,
    name: 'calcium aluminate and glass ionomer hybrid',
    working: {
      min: 120,
      target: 120,
      max: 120,
      unit: 's',
      ...practice,
      note: `about 2 min ${AT_23}`,
    },
    setting: minutes(4, 6, IN_MOUTH),
    gel: minutes(2, 3, 'from mix, like rubber'),
    excess: 'rubber',
    moisture: 'damp',
    notes: [],
  },
  'adhesive-resin-light': {
    ...RESIN,
    family: 'adhesive',
    name: 'adhesive resin, light cure',
    working: {
      min: 300,
      target: 300,
      max: null,
      unit: 's',
      ...judgement,
      note: 'it works until lit, and ambient light starts it: planned with 5 min under a dimmed lamp',
    },
    setting: {
      min: null,
      target: 300,
      max: null,
      unit: 's',
      ...judgement,
      note: 'sets on exposure only: no set to wait for',
    },
    gel: minutes(1.5, 3, 'not without light: it is tacked'),
    lightCured: true,
    setsAlone: false,
    needsForm: false,
    moisture: 'bonded',
    notes: [
      'Light-cure resin: operating lamp off or through an orange filter from the dispensing on; ambient light starts it.',
    ],
  },
  'adhesive-resin-dual': {
    ...RESIN,
    family: 'adhesive',
    name: 'adhesive resin, dual cure',
    working: minutes(2, 4, AT_23),
    setting: minutes(4, 7, UNLIT),
    gel: minutes(1.5, 3, 'from mix'),
    lightCured: true,
    setsAlone: true,
    needsForm: false,
    moisture: 'bonded',
  },
  'adhesive-resin-self': {
    ...RESIN,
    family: 'adhesive',
    name: 'adhesive resin, self cure',
    working: minutes(2, 4, AT_23),
    setting: minutes(3, 6, IN_MOUTH),
    gel: minutes(2, 4, 'from mix'),
    lightCured: false,
    setsAlone: true,
    needsForm: false,
    moisture: 'bonded',
  },
  'self-adhesive-resin': {
    ...RESIN,
    family: 'self-adhesive',
    name: 'self-adhesive resin',
    working: minutes(1.5, 2.5, AT_23),
    setting: minutes(5, 6, UNLIT),
    gel: minutes(2, 3, 'from mix'),
    lightCured: true,
    setsAlone: true,
    needsForm: true,
    moisture: 'moist',
  },
};
