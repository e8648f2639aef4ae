import fc from 'fast-check';
import { type CaseFile, MATERIALS, SUBSTRATES } from '../../machines/contract/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from './cases.ts';

const CEMENTS = ['adhesive resin', 'self-adhesive resin', 'resin-modified glass ionomer'] as const;

/** Facts of one invented unit: both materials, every cement and substrate, any history from the laboratory. */
const unit = fc.record({
  material: fc.constantFrom(...MATERIALS),
  substrate: fc.constantFrom(...SUBSTRATES),
  cement: fc.constantFrom(...CEMENTS),
  provisionalCement: fc.constantFrom('none' as const, 'eugenol' as const),
  intaglioFromLab: fc.constantFrom('untreated' as const, 'abraded' as const, 'etched' as const),
  fitPaste: fc.boolean(),
  tryInPaste: fc.boolean(),
  translucency: fc.constantFrom('high' as const, 'low' as const),
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
  adhesive: missing,
  light: missing,
});

type Lacking = Partial<Record<keyof CaseFile['shelf'], null | undefined>>;
const only = (lack: Lacking) =>
  Object.fromEntries(Object.entries(lack).filter(([, value]) => value === null));

/** A case of one or two invented units on a shelf with things missing, now and then with its own times. */
export const arbitraryCase: fc.Arbitrary<CaseFile> = fc
  .record({
    units: fc.array(unit, { minLength: 1, maxLength: 2 }),
    lack: lacking,
    own: fc.boolean(),
    roomC: fc.constantFrom(18, 23, 28),
  })
  .map(({ units, lack, own, roomC }) => {
    const made = units.map(({ countsCleanReason, ...facts }, n) => ({
      ...(n === 0 ? ZIRCONIA : DISILICATE),
      ...facts,
      ...(countsCleanReason === undefined ? {} : { countsCleanReason }),
    }));
    const { shelf } = inventedCase(made);
    const times = own
      ? {
          silane: { label: 'silane', ifu: { minS: 90, targetS: 100 } },
          cleaner: { label: 'cleaner', ifu: { minS: 25, targetS: 30 } },
        }
      : {};
    return inventedCase(made, { roomC, shelf: { ...shelf, ...times, ...only(lack) } });
  });
