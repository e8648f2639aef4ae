import type { CementClass } from '../contract/index.ts';
import { judgement, practice } from './number.ts';
import type { Span } from './number.ts';

/** A class of luting cement. Times count from the start of the mix. */
export interface CementTable {
  readonly name: string;
  /** Working time at 23 degrees C. The plan uses the shortest: a late seat can't be taken back. */
  readonly working: Span;
  /** Setting time in the mouth. The plan uses the longest: waiting harms nothing. */
  readonly setting: Span;
  /** When excess peels off like rubber. */
  readonly gel: Span;
  /** Bonds to a silane or phosphate primer; an acid-base cement sits on the clean surface. */
  readonly takesPrimer: boolean;
  /** Set by light where light reaches. */
  readonly lightCured: boolean;
  /** Oxygen keeps its surface soft: glycerine gel over the margins. */
  readonly oxygenInhibited: boolean;
  /** Holds only on a prep whose form holds by itself. */
  readonly needsForm: boolean;
  readonly moisture: 'bonded' | 'moist' | 'damp';
  /** When the patient may chew. */
  readonly aftercare: string;
}

const minutes = (min: number, target: number, max: number, note: string): Span => ({
  min: min * 60,
  target: target * 60,
  max: max * 60,
  unit: 's',
  ...practice,
  note: `${note}; the aim is the middle`,
  apart: { target: judgement },
});

/** Every cement class a plan can use. */
export const CEMENT_TABLE = {
  'adhesive-resin-dual': {
    name: 'adhesive resin, dual cure',
    working: minutes(2, 3, 4, 'from mix, at 23 degrees C'),
    setting: minutes(4, 5.5, 7, 'from mix, in the mouth, without light'),
    gel: minutes(1.5, 2, 3, 'from mix'),
    takesPrimer: true,
    lightCured: true,
    oxygenInhibited: true,
    needsForm: false,
    moisture: 'bonded',
    aftercare: 'No chewing on it for one hour.',
  },
  'self-adhesive-resin': {
    name: 'self-adhesive resin',
    working: minutes(1.5, 2, 2.5, 'from mix, at 23 degrees C'),
    setting: minutes(5, 5.5, 6, 'from mix, in the mouth, without light'),
    gel: minutes(2, 2.5, 3, 'from mix'),
    takesPrimer: true,
    lightCured: true,
    oxygenInhibited: true,
    needsForm: true,
    moisture: 'moist',
    aftercare: 'No chewing on it for one hour.',
  },
  'resin-modified-glass-ionomer': {
    name: 'resin-modified glass ionomer',
    working: minutes(2, 2.5, 3, 'from mix, at 23 degrees C'),
    setting: minutes(3, 4, 5, 'from mix, in the mouth'),
    gel: minutes(2, 2.5, 3, 'from mix'),
    takesPrimer: false,
    lightCured: false,
    oxygenInhibited: false,
    needsForm: true,
    moisture: 'damp',
    aftercare: 'Nothing sticky or hard for 24 hours.',
  },
} as const satisfies Readonly<Record<CementClass, CementTable>>;
