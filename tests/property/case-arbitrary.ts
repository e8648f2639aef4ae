import fc from 'fast-check';
import {
  BONDING_MODES,
  CEMENT_CLASSES,
  CONTAMINANTS,
  CaseFile,
  MATERIALS,
  TEETH,
  UNIT_KINDS,
} from '../../machines/contract/index.ts';
import type { CaseInput, Substrate, UnitKind } from '../../machines/contract/index.ts';
import { checkCase } from '../../machines/plan/index.ts';

const ifu = fc
  .uniqueArray(fc.integer({ min: 3, max: 300 }), { minLength: 3, maxLength: 3 })
  .map((times) => times.toSorted((one, other) => one - other))
  .map(([minS, targetS, maxS]) => ({
    ...(minS === undefined ? {} : { minS }),
    ...(targetS === undefined ? {} : { targetS }),
    ...(maxS === undefined ? {} : { maxS }),
  }));

/** An item that is there most of the time, now and then with times of its own. */
const item = <T extends object>(there: T) =>
  fc.option(
    fc.option(ifu, { freq: 3 }).map((times) => (times === null ? there : { ...there, ifu: times })),
    { freq: 6 },
  );

const shelf = fc.record({
  abrasion: item({ particleUm: 50, bar: 2 }),
  cleaner: item({ label: 'cleaner' }),
  hydrofluoricAcid: item({ label: 'porcelain etch', percent: 5 }),
  phosphoricAcid: item({ label: 'tooth etch' }),
  silane: item({ label: 'silane' }),
  phosphatePrimer: item({ label: 'primer' }),
  metalPrimer: item({ label: 'metal primer', monomer: 'both' as const }),
  adhesive: item({ label: 'universal adhesive' }),
  cements: fc.constant(
    CEMENT_CLASSES.map((id) => ({
      label: id,
      class: id,
      carriesPhosphate: id === 'self-adhesive-resin',
    })),
  ),
  light: fc.option(fc.record({ mwCm2: fc.integer({ min: 400, max: 4000 }) }), { freq: 6 }),
});

const prep = fc.record({
  heightMm: fc.double({ min: 0.5, max: 7, noNaN: true }),
  convergenceDeg: fc.double({ min: 0, max: 30, noNaN: true }),
  widthMm: fc.double({ min: 3, max: 14, noNaN: true }),
});

const TEETH_AND_CORES: readonly Substrate[] = [
  'dentin',
  'enamel',
  'sealed-dentin',
  'composite-core',
];
const CORES: readonly Substrate[] = ['amalgam-core', 'noble-metal-core', 'base-metal-core'];

/** What each kind usually sits on, so that most of what is drawn is sound. */
const SITS_ON: Readonly<Record<UnitKind, readonly Substrate[]>> = {
  crown: [...TEETH_AND_CORES, ...CORES],
  bridge: [...TEETH_AND_CORES, ...CORES, 'titanium-abutment'],
  veneer: TEETH_AND_CORES,
  inlay: TEETH_AND_CORES,
  onlay: TEETH_AND_CORES,
  'resin-bonded-bridge': ['enamel'],
  'implant-crown': ['titanium-abutment', 'zirconia-abutment', 'titanium-base'],
};

/** Teeth of a bridge over its middle one, by the first retainer. */
const SPANS = [
  { tooth: '26', retainer: '24', pontic: '25' },
  { tooth: '13', retainer: '11', pontic: '12' },
  { tooth: '36', retainer: '34', pontic: '35' },
] as const;

const facts = fc.record(
  {
    tooth: fc.constantFrom(...TEETH),
    material: fc.constantFrom(...MATERIALS),
    translucency: fc.constantFrom('high' as const, 'low' as const),
    thicknessMm: fc.double({ min: 0.3, max: 3, noNaN: true }),
    prep,
    provisionalCement: fc.constantFrom('none' as const, 'non-eugenol' as const, 'eugenol' as const),
    intaglioFromLab: fc.constantFrom('untreated' as const, 'abraded' as const, 'etched' as const),
    fitPaste: fc.boolean(),
    tryInPaste: fc.boolean(),
    isolation: fc.constantFrom('dam' as const, 'rolls' as const),
    bonding: fc.constantFrom(...BONDING_MODES),
    cement: fc.constantFrom(...CEMENT_CLASSES),
    countsCleanReason: fc.constant('tried in on the model'),
    belowMinimumReason: fc.constant('asked for'),
  },
  {
    requiredKeys: [
      'tooth',
      'material',
      'thicknessMm',
      'prep',
      'provisionalCement',
      'intaglioFromLab',
      'isolation',
      'cement',
    ],
  },
);

const seat = fc
  .constantFrom(...UNIT_KINDS)
  .chain((kind) =>
    fc.record({ kind: fc.constant(kind), substrate: fc.constantFrom(...SITS_ON[kind]) }),
  );

/** One unit; a bridge gets teeth that stand side by side. */
const unit = fc
  .record({
    facts,
    seat,
    span: fc.constantFrom(...SPANS),
    other: prep,
    apart: fc.option(fc.constantFrom(...SITS_ON.bridge), { freq: 2 }),
  })
  .map(({ facts: given, seat: on, span, other, apart }): CaseInput['units'][number] => {
    const bridge = on.kind === 'bridge' || on.kind === 'resin-bonded-bridge';
    if (!bridge) return { ...given, ...on };
    return {
      ...given,
      ...on,
      tooth: span.tooth,
      bridge: {
        retainers: [
          {
            tooth: span.retainer,
            prep: other,
            ...(apart === null ? {} : { substrate: apart }),
          },
        ],
        pontics: [span.pontic],
        connectorMm2: 16,
      },
    };
  });

/** A case as someone might write it, good or not. */
export const anyCase: fc.Arbitrary<CaseInput> = fc.record({
  format: fc.constant('seatcall-case/1' as const),
  reference: fc.constant('invented'),
  invented: fc.constant(true),
  team: fc.constantFrom('assisted' as const, 'solo' as const),
  roomC: fc.integer({ min: 10, max: 40 }),
  units: fc.uniqueArray(unit, { minLength: 1, maxLength: 3, selector: ({ tooth }) => tooth }),
  shelf,
});

/** A case that `checkCase` lets through: of any case, the units that are sound on its shelf. */
export const soundCase: fc.Arbitrary<CaseFile> = anyCase
  .map((given) => ({
    ...given,
    units: given.units.filter((each) => checkCase({ ...given, units: [each] }).ok),
  }))
  .filter(({ units }) => units.length > 0)
  .map((given) => CaseFile.parse(given));

/** Any state of an intaglio. */
export const anyIntaglio = fc.record({
  contaminants: fc.uniqueArray(fc.constantFrom(...CONTAMINANTS)),
  texture: fc.constantFrom('none' as const, 'abraded' as const, 'etched' as const),
  primed: fc.boolean(),
  agent: fc.constantFrom(
    null,
    'cleaner' as const,
    'acid-clean' as const,
    'porcelain-etch' as const,
  ),
  wet: fc.boolean(),
});
