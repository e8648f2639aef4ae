import fc from 'fast-check';
import { CONTAMINANTS, CaseFile, TEETH } from '../../machines/contract/index.ts';
import type { CaseInput } from '../../machines/contract/index.ts';
import { checkCase } from '../../machines/plan/index.ts';
import { fullShelf } from '../case-samples.ts';

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
  adhesive: item({ label: 'universal adhesive' }),
  cements: fc.constant(fullShelf.cements),
  light: fc.option(fc.record({ mwCm2: fc.integer({ min: 400, max: 4000 }) }), { freq: 6 }),
});

const unit = fc.record(
  {
    tooth: fc.constantFrom(...TEETH),
    kind: fc.constant('crown' as const),
    material: fc.constantFrom('zirconia-3y' as const, 'lithium-disilicate' as const),
    translucency: fc.constantFrom('high' as const, 'low' as const),
    thicknessMm: fc.double({ min: 0.3, max: 3, noNaN: true }),
    substrate: fc.constantFrom('dentin' as const, 'enamel' as const, 'composite-core' as const),
    prep: fc.record({
      heightMm: fc.double({ min: 0.5, max: 7, noNaN: true }),
      convergenceDeg: fc.double({ min: 0, max: 30, noNaN: true }),
      widthMm: fc.double({ min: 3, max: 14, noNaN: true }),
    }),
    provisionalCement: fc.constantFrom('none' as const, 'non-eugenol' as const, 'eugenol' as const),
    intaglioFromLab: fc.constantFrom('untreated' as const, 'abraded' as const, 'etched' as const),
    fitPaste: fc.boolean(),
    tryInPaste: fc.boolean(),
    isolation: fc.constantFrom('dam' as const, 'rolls' as const),
    cement: fc.constantFrom('adhesive', 'self-adhesive', 'ionomer'),
    countsCleanReason: fc.constant('tried in on the model'),
  },
  {
    requiredKeys: [
      'tooth',
      'kind',
      'material',
      'thicknessMm',
      'substrate',
      'prep',
      'provisionalCement',
      'intaglioFromLab',
      'isolation',
      'cement',
    ],
  },
);

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
