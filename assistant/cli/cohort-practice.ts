import type { CaseFile, CaseInput } from '../../machines/contract/index.ts';
import { checkCase } from '../../machines/plan/index.ts';
import type { Chance } from './cohort-chance.ts';

/** One appointment of the invented practice before it begins. */
export interface Appointment {
  readonly caseFile: CaseFile;
  /** Wall time it opens, milliseconds since the epoch. */
  readonly opened: number;
  /** How careless those at the chair are, times the practice's own rate. */
  readonly careless: number;
  /** Label of the cement used. */
  readonly cement: string;
}

const DAY = 86_400_000;
const FIRST = Date.UTC(2018, 0, 8);
/** Working days over which appointments are spread: eight years. */
const SPREAD = 2900;

/** Invented: the lot that is behind more debonds than its share. */
export const BAD_LOT = 'RA-2021-2';

type UnitInput = CaseInput['units'][number];

/** The last appointment's day, as days after the first; also when follow-up ends. */
export const STUDY_END = FIRST + (SPREAD + 180) * DAY;

/** A lot lasts a quarter; the name says when it was bought. */
const lotOf = (prefix: string, opened: number): string => {
  const date = new Date(opened);
  return `${prefix}-${date.getUTCFullYear()}-${Math.floor(date.getUTCMonth() / 3) + 1}`;
};

function shelfOf(opened: number, careful: boolean): CaseInput['shelf'] {
  const expires = new Date(opened + 400 * DAY).toISOString().slice(0, 10);
  const bought = (label: string, prefix: string) => ({
    label,
    lot: lotOf(prefix, opened),
    expires,
  });
  const cement = (label: string, prefix: string) =>
    careful ? bought(label, prefix) : { label, expires };
  return {
    abrasion: { particleUm: 50, bar: 2 },
    cleaner: bought('alkaline cleaner', 'AC'),
    hydrofluoricAcid: { ...bought('porcelain etch', 'PE'), percent: 5 },
    phosphoricAcid: bought('tooth etch', 'TE'),
    silane: bought('silane', 'SI'),
    phosphatePrimer: bought('phosphate primer', 'PP'),
    adhesive: bought('universal adhesive', 'UA'),
    cements: [
      { ...cement('adhesive resin', 'RA'), class: 'adhesive-resin-dual' },
      {
        ...cement('self-adhesive resin', 'RS'),
        class: 'self-adhesive-resin',
        carriesPhosphate: true,
      },
      { ...cement('resin-modified glass ionomer', 'GI'), class: 'resin-modified-glass-ionomer' },
    ],
    light: { mwCm2: 1200 },
  };
}

function unitOf(chance: Chance): UnitInput {
  const zirconia = chance.hits(0.6);
  const molar = chance.hits(zirconia ? 0.7 : 0.25);
  const place = molar ? chance.whole(6, 7) : chance.whole(zirconia ? 4 : 1, 5);
  const cement = chance.weighed([
    ['adhesive resin', 0.55],
    ['self-adhesive resin', zirconia ? 0.35 : 0.45],
    ['resin-modified glass ionomer', zirconia ? 0.1 : 0],
  ] as const);
  return {
    tooth: `${chance.whole(1, 4)}${place}`,
    kind: 'crown',
    material: zirconia ? 'zirconia-3y' : 'lithium-disilicate',
    translucency: zirconia ? 'low' : 'high',
    thicknessMm: zirconia ? 1 : 1.5,
    substrate: chance.weighed([
      ['dentin', 0.8],
      ['composite-core', 0.2],
    ] as const),
    prep: {
      heightMm: Math.round(chance.between(3, 6) * 10) / 10,
      convergenceDeg: chance.whole(8, 22),
      widthMm: molar ? 10 : 7.5,
    },
    provisionalCement: chance.hits(0.9) ? 'non-eugenol' : 'none',
    intaglioFromLab: zirconia ? (chance.hits(0.75) ? 'abraded' : 'untreated') : 'untreated',
    fitPaste: chance.hits(0.15),
    isolation: chance.hits(0.45) ? 'dam' : 'rolls',
    cement,
  };
}

/** The `index`th appointment; its facts are sound. */
export function appointment(seed: number, index: number, chance: Chance): Appointment {
  const day = FIRST + chance.whole(0, SPREAD) * DAY;
  const opened = day + chance.whole(8 * 60, 17 * 60) * 60_000;
  const careless = chance.weighed([
    [0.4, 0.3],
    [1, 0.5],
    [2.2, 0.2],
  ] as const);
  const solo = chance.hits(0.25);
  const careful = chance.hits(0.93);
  for (;;) {
    const unit = unitOf(chance);
    const checked = checkCase({
      format: 'seatcall-case/1',
      reference: `INVENTED-${seed}-${String(index + 1).padStart(6, '0')}`,
      invented: true,
      team: solo ? 'solo' : 'assisted',
      roomC: chance.whole(21, 25),
      units: [unit],
      shelf: shelfOf(opened, careful),
    } satisfies CaseInput);
    // A cement that this prep can't hold is not what the practice would have chosen.
    if (checked.ok) return { caseFile: checked.case, opened, careless, cement: unit.cement };
  }
}
