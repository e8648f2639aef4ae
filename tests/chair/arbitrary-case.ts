import fc from 'fast-check';
import {
  CaseFile,
  CEMENT_CLASSES,
  MATERIALS,
  SUBSTRATES,
  UNIT_KINDS,
} from '../../machines/contract/index.ts';
import { combined } from './combinations.ts';
import { mixedBridge } from './mixed.ts';

/** A combination that goes together: material, kind, substrate and cement, drawn until one does. */
const together: fc.Arbitrary<CaseFile> = fc
  .record({
    material: fc.constantFrom(...MATERIALS),
    kind: fc.constantFrom(...UNIT_KINDS),
    substrate: fc.constantFrom(...SUBSTRATES),
    cement: fc.constantFrom(...CEMENT_CLASSES),
  })
  .map(combined)
  .filter((made) => made !== null);

/** A bridge whose retainers sit on different things. */
const apart: fc.Arbitrary<CaseFile> = fc
  .record({
    first: fc.constantFrom(...SUBSTRATES),
    other: fc.constantFrom(...SUBSTRATES),
    cement: fc.constantFrom(...CEMENT_CLASSES),
  })
  .map(({ first, other, cement }) => mixedBridge(first, other, cement))
  .filter((made) => made !== null);

/** What may be known of a unit besides: any history from the laboratory, planned pastes, a provisional or none. */
const history = fc.record({
  provisionalCement: fc.constantFrom('none' as const, 'eugenol' as const),
  intaglioFromLab: fc.constantFrom('untreated' as const, 'abraded' as const, 'etched' as const),
  fitPaste: fc.boolean(),
  tryInPaste: fc.boolean(),
  countsCleanReason: fc.option(fc.constant('tried in under a dam, never wet'), {
    nil: undefined,
    freq: 6,
  }),
});

const missing = fc.option(fc.constant(null), { nil: undefined, freq: 8 });
/** What a shelf may lack; undefined leaves it there. */
const lacking = fc.record({
  abrasion: missing,
  cleaner: missing,
  hydrofluoricAcid: missing,
  phosphoricAcid: missing,
  silane: missing,
  phosphatePrimer: missing,
  metalPrimer: missing,
  adhesive: missing,
  light: missing,
});

type Lacking = Partial<Record<keyof CaseFile['shelf'], null | undefined>>;
const only = (lack: Lacking) =>
  Object.fromEntries(Object.entries(lack).filter(([, value]) => value === null));

/** The teeth that the moves address. */
const TEETH = ['46', '15'] as const;

/** A case of one or two invented units on a shelf with things missing, now and then with its own times. */
export const arbitraryCase: fc.Arbitrary<CaseFile> = fc
  .record({
    units: fc.array(
      fc.tuple(
        fc.oneof({ weight: 5, arbitrary: together }, { weight: 1, arbitrary: apart }),
        history,
      ),
      { minLength: 1, maxLength: 2 },
    ),
    lack: lacking,
    own: fc.boolean(),
    roomC: fc.constantFrom(18, 23, 28),
  })
  .map(({ units, lack, own, roomC }) => {
    const made = units.flatMap(([{ units: facts }, { countsCleanReason, ...more }], n) =>
      facts.map((unit) => ({
        ...unit,
        ...more,
        tooth: TEETH[n] ?? '46',
        ...(countsCleanReason === undefined ? {} : { countsCleanReason }),
      })),
    );
    const shelf = units[0]?.[0].shelf;
    const times = own
      ? {
          silane: { label: 'silane', ifu: { minS: 90, targetS: 100 } },
          cleaner: { label: 'cleaner', ifu: { minS: 25, targetS: 30 } },
        }
      : {};
    return CaseFile.parse({
      ...units[0]?.[0],
      reference: 'INVENTED-1',
      units: made,
      roomC,
      shelf: { ...shelf, ...times, ...only(lack) },
    });
  });
