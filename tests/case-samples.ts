import { CaseFile } from '../machines/contract/index.ts';
import type { CaseInput } from '../machines/contract/index.ts';

type UnitInput = CaseInput['units'][number];
type ShelfInput = CaseInput['shelf'];

/** A full shelf with three cements: 'adhesive', 'self-adhesive' (carries phosphate), 'ionomer'. Invented. */
export const fullShelf: ShelfInput = {
  abrasion: { particleUm: 50, bar: 2 },
  cleaner: { label: 'cleaner' },
  hydrofluoricAcid: { label: 'porcelain etch', percent: 5 },
  phosphoricAcid: { label: 'tooth etch' },
  silane: { label: 'silane' },
  phosphatePrimer: { label: 'zirconia primer' },
  adhesive: { label: 'universal adhesive' },
  cements: [
    { label: 'adhesive', class: 'adhesive-resin-dual' },
    { label: 'self-adhesive', class: 'self-adhesive-resin', carriesPhosphate: true },
    { label: 'ionomer', class: 'resin-modified-glass-ionomer' },
  ],
  light: { mwCm2: 1200 },
};

/** A zirconia crown on a lower first molar, abraded by the lab. Invented. */
export const zirconiaUnit: UnitInput = {
  tooth: '46',
  kind: 'crown',
  material: 'zirconia-3y',
  thicknessMm: 1,
  substrate: 'dentin',
  prep: { heightMm: 4.5, convergenceDeg: 12, widthMm: 10 },
  provisionalCement: 'non-eugenol',
  intaglioFromLab: 'abraded',
  isolation: 'dam',
  cement: 'adhesive',
};

/** A lithium disilicate crown on an upper first premolar, untreated by the lab. Invented. */
export const disilicateUnit: UnitInput = {
  ...zirconiaUnit,
  tooth: '24',
  material: 'lithium-disilicate',
  thicknessMm: 1.5,
  prep: { heightMm: 3.5, convergenceDeg: 12, widthMm: 8 },
  intaglioFromLab: 'untreated',
};

/** A case of these units; shelf items can be changed one by one. */
export const caseInput = (
  units: readonly UnitInput[],
  shelf: Partial<ShelfInput> = {},
): CaseInput => ({
  format: 'seatcall-case/1',
  reference: 'invented',
  invented: true,
  units: [...units],
  shelf: { ...fullShelf, ...shelf },
});

/** The same, parsed. */
export const caseOf = (units: readonly UnitInput[], shelf: Partial<ShelfInput> = {}): CaseFile =>
  CaseFile.parse(caseInput(units, shelf));
