import type { Finding, RefusalId, StepId } from '../contract/index.ts';
import type { Cause } from './debond.ts';
import type { Texture } from './material.ts';
import { judgement } from './number.ts';
import type { Span } from './number.ts';

/** What shows an event in a graded record: any of these. */
export interface Shown {
  /** Departures by grade and step. */
  readonly steps?: Readonly<
    Partial<
      Record<
        'not done' | 'short' | 'long' | 'out of order' | 'wrong agent' | 'unverified',
        readonly StepId[]
      >
    >
  >;
  /** Steps that came too late, by the step they came too late after. */
  readonly late?: Readonly<Partial<Record<StepId, readonly StepId[]>>>;
  /** What was found and said at the chair. */
  readonly findings?: readonly Finding[];
  /** Refusals that were forced. */
  readonly forced?: readonly RefusalId[];
  /** Only for materials whose intaglio takes this texture; every one when left out. */
  readonly texture?: Texture;
}

/** An event of the seating that speaks for a cause. */
export interface DebondEvent {
  readonly name: string;
  readonly causes: readonly Cause[];
  /** Likelihood ratio, recorded against not: least, most likely, most. */
  readonly ratio: Span;
  readonly shown: Shown;
}

const times = (min: number, target: number, max: number, note: string): Span => ({
  min,
  target,
  max,
  unit: 'ratio',
  ...judgement,
  note,
});

const CLEANINGS = ['cleaner', 'cleaner-rinse', 'acid-clean', 'acid-clean-rinse'] as const;
const CURES = ['cure-occlusal', 'cure-buccal', 'cure-lingual'] as const;

/**
 * Likelihood ratios of events of the seating. Steps are not independent: of several events that
 * speak for a cause only the strongest may be taken. Those without `shown` can't be told from a
 * record; whoever knows of one says so in the findings.
 */
export const DEBOND_EVENTS = {
  'not-decontaminated': {
    name: 'intaglio not decontaminated after the try-in',
    causes: ['intaglio'],
    ratio: times(2, 6, 15, 'basis Yang08, Feitosa15; but Aladag15 found no difference'),
    shown: {
      steps: { 'not done': CLEANINGS, short: CLEANINGS },
      forced: ['intaglio-soiled', 'not-rinsed'],
    },
  },
  'not-abraded': {
    name: 'zirconia not abraded',
    causes: ['intaglio'],
    ratio: times(4, 8, 20, 'basis Hummel04 (all unabraded debonded), Inokoshi14'),
    shown: {
      steps: { 'not done': ['abrade'], short: ['abrade'] },
      forced: ['intaglio-not-conditioned', 'silicone-needs-abrasion'],
      texture: 'abraded',
    },
  },
  'no-primer': {
    name: 'no phosphate primer on zirconia, or no silane on glass-ceramic',
    causes: ['intaglio'],
    ratio: times(2, 4, 8, 'basis Inokoshi14, Kern98'),
    shown: {
      steps: {
        'not done': ['silane', 'zirconia-primer'],
        short: ['silane', 'zirconia-primer'],
      },
      forced: ['intaglio-not-primed'],
    },
  },
  'not-etched': {
    name: 'glass-ceramic not etched with hydrofluoric acid, or silicone left for phosphoric acid',
    causes: ['intaglio'],
    ratio: times(4, 10, 30, 'basis Klosa09: 0.3 to 13.5 against 44 to 50 MPa'),
    shown: {
      steps: { 'not done': ['porcelain-etch'], short: ['porcelain-etch'] },
      forced: ['intaglio-not-conditioned', 'silicone-needs-etch'],
      texture: 'etched',
    },
  },
  'wrong-conditioner': {
    name: 'hydrofluoric acid or silane used on zirconia instead',
    causes: ['intaglio'],
    ratio: times(1.5, 3, 6, 'zirconia holds no silica to etch or to silanate'),
    shown: {
      steps: { 'wrong agent': ['porcelain-etch', 'silane'] },
      texture: 'abraded',
    },
  },
  'acid-last': {
    name: 'phosphoric acid last on zirconia',
    causes: ['intaglio'],
    ratio: times(1, 2, 4, 'studies conflict'),
    shown: {
      steps: { 'wrong agent': ['acid-clean', 'acid-clean-rinse'] },
      texture: 'abraded',
    },
  },
  residue: {
    name: 'provisional cement or haemostatic not removed from the prep',
    causes: ['tooth-bond'],
    ratio: times(1.5, 3, 6, 'basis Kuphasuk07'),
    shown: {
      steps: { 'not done': ['provisional-off', 'prep-clean', 'pumice'] },
      forced: ['provisional-on', 'prep-not-clean'],
    },
  },
  'tooth-soiled': {
    name: 'saliva or blood on the conditioned tooth, not redone',
    causes: ['tooth-bond'],
    ratio: times(2, 5, 10, 'no basis but judgement'),
    shown: { forced: ['prep-not-ready', 'field-wet'] },
  },
  'tooth-conditioning': {
    name: 'dentin over-etched or over-dried, or sealed dentin not reactivated',
    causes: ['tooth-bond'],
    ratio: times(1, 2, 4, 'no basis but judgement'),
    shown: {
      steps: { 'not done': ['prep-moist'], long: ['tooth-etch'] },
      // What was bonded or etched has dried or got wet meanwhile.
      late: { 'tooth-etch-rinse': ['bond'], 'bond-thin': ['seat', 'mix', 'load'] },
      forced: ['acid-on-dentin'],
    },
  },
  'late-seat': {
    name: 'seated after the working time',
    causes: ['cement'],
    ratio: times(3, 6, 15, 'no basis but judgement'),
    shown: { late: { mix: ['seat', 'load'] }, forced: ['working-time-over'] },
  },
  moved: {
    name: 'moved or wiped during gel',
    causes: ['cement'],
    ratio: times(1.5, 3, 6, 'no basis but judgement'),
    shown: {
      steps: {
        'not done': ['tack', 'gel-wait'],
        short: ['seat', 'tack', 'gel-wait'],
        'out of order': ['flash', 'floss'],
      },
      findings: ['moved'],
    },
  },
  'under-cured': {
    name: 'less than half the light dose, or a margin not cured',
    causes: ['cement'],
    ratio: times(1.5, 3, 6, 'basis Vrochari09'),
    shown: { steps: { 'not done': CURES, short: CURES } },
  },
  'acid-amine': {
    name: 'acidic adhesive under a cement that sets by amine',
    causes: ['cement'],
    ratio: times(2, 5, 10, 'basis Sanares01, Tay03'),
    shown: {},
  },
  expired: {
    name: 'cement or agent expired or wrongly stored',
    causes: ['cement'],
    ratio: times(1, 1.5, 3, 'basis WT15'),
    shown: {},
  },
  'fit-unchecked': {
    name: 'fit not checked, open margin, or high spot left',
    causes: ['misfit', 'overload'],
    ratio: times(1.5, 3, 6, 'no basis but judgement'),
    shown: {
      steps: {
        'not done': ['contacts', 'margins', 'bite-after'],
        unverified: ['contacts', 'margins', 'bite-after'],
      },
    },
  },
} as const satisfies Readonly<Record<string, DebondEvent>>;
export type DebondEventId = keyof typeof DEBOND_EVENTS;
