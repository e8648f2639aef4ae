import { CEMENT_CLASSES } from '../../machines/contract/index.ts';
import type {
  CaseInput,
  CementClass,
  Material,
  Substrate,
  UnitKind,
} from '../../machines/contract/index.ts';
import { checkCase } from '../../machines/plan/index.ts';
import type { CheckedCase } from '../../machines/plan/index.ts';
import { MATERIAL_TABLE } from '../../machines/trade/index.ts';

type UnitInput = CaseInput['units'][number];

/** An invented practice with everything on its shelf, a cement of every class among it. */
const SHELF: CaseInput['shelf'] = {
  abrasion: { particleUm: 50, bar: 2 },
  cleaner: { label: 'alkaline cleaner' },
  hydrofluoricAcid: { label: 'porcelain etch', percent: 5 },
  phosphoricAcid: { label: 'tooth etch' },
  silane: { label: 'silane' },
  phosphatePrimer: { label: '10-MDP primer' },
  metalPrimer: { label: 'metal primer', monomer: 'both' },
  adhesive: { label: 'universal adhesive' },
  cements: CEMENT_CLASSES.map((id) => ({
    label: id,
    class: id,
    carriesPhosphate: id === 'self-adhesive-resin',
  })),
  light: { mwCm2: 1200 },
};

/** Preps whose form holds, and one whose form does not. */
const HOLDS = { heightMm: 4.5, convergenceDeg: 12, widthMm: 9 };
const FAILS = { heightMm: 2.5, convergenceDeg: 20, widthMm: 10 };

/** Where such a unit usually sits: each is tried in turn, because some materials are for some teeth. */
const SEATS: Readonly<Record<UnitKind, readonly Partial<UnitInput>[]>> = {
  crown: [{ tooth: '46' }, { tooth: '11' }],
  bridge: [
    {
      tooth: '26',
      bridge: { retainers: [{ tooth: '24', prep: HOLDS }], pontics: ['25'], connectorMm2: 16 },
    },
    {
      tooth: '15',
      bridge: { retainers: [{ tooth: '13', prep: HOLDS }], pontics: ['14'], connectorMm2: 16 },
    },
  ],
  veneer: [{ tooth: '11' }],
  inlay: [{ tooth: '26' }],
  onlay: [{ tooth: '26' }],
  'resin-bonded-bridge': [
    { tooth: '11', bridge: { retainers: [], pontics: ['12'], connectorMm2: 16 } },
  ],
  'implant-crown': [{ tooth: '46', abutment: { torqueNcm: 30, marginBelowGumMm: 0.5 } }],
};

/** What is asked for: one combination of the vocabularies. */
export interface Wanted {
  readonly material: Material;
  readonly kind: UnitKind;
  readonly substrate: Substrate;
  readonly cement: CementClass;
  /** False for a prep whose form does not hold. */
  readonly form?: boolean;
}

/** Thickness and translucency to try: what is aimed at first, then as thin and clear as it may be. */
const sizes = ({ material, kind }: Wanted): Pick<UnitInput, 'thicknessMm' | 'translucency'>[] => {
  const { thickness } = MATERIAL_TABLE[material];
  const span =
    kind === 'veneer' || kind === 'inlay' || kind === 'onlay' ? thickness[kind] : thickness.crown;
  const aim = kind === 'resin-bonded-bridge' ? 0.8 : (span?.target ?? 1);
  return [
    { thicknessMm: aim, translucency: 'low' },
    { thicknessMm: span?.min ?? aim, translucency: 'high' },
  ];
};

const caseWith = (wanted: Wanted, more: Partial<UnitInput>): CaseInput => ({
  format: 'seatcall-case/1',
  reference: 'invented-all',
  invented: true,
  on: '2030-01-15',
  units: [
    {
      tooth: '46',
      thicknessMm: 1,
      prep: wanted.form === false ? FAILS : HOLDS,
      provisionalCement: 'non-eugenol',
      intaglioFromLab: 'untreated',
      isolation: 'dam',
      kind: wanted.kind,
      material: wanted.material,
      substrate: wanted.substrate,
      cement: wanted.cement,
      ...more,
    },
  ],
  shelf: SHELF,
});

/**
 * An invented case of the combination, judged: the first of the usual seats and sizes that is
 * sound, or the one with least wrong.
 */
export const caseOf = (wanted: Wanted): CheckedCase => {
  const tried = SEATS[wanted.kind].flatMap((seat) =>
    sizes(wanted).map((size) => checkCase(caseWith(wanted, { ...seat, ...size }))),
  );
  // Where none is sound, the one with least wrong says most about the combination itself.
  const wrong = (checked: CheckedCase): number => (checked.ok ? 0 : checked.problems.length);
  const [best] = tried.toSorted((one, other) => wrong(one) - wrong(other));
  return best ?? checkCase(null);
};
