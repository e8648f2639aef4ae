import { CaseFile, type CaseInput } from '../../machines/contract/index.ts';

/** Invented: a practice with everything on its shelf. */
export const SHELF: CaseInput['shelf'] = {
  abrasion: { particleUm: 50, bar: 2 },
  cleaner: { label: 'alkaline zirconia-suspension cleaner', lot: 'INV-01' },
  hydrofluoricAcid: { label: 'porcelain etch 5 %', percent: 5 },
  phosphoricAcid: { label: 'phosphoric acid 37 %' },
  silane: { label: 'silane' },
  phosphatePrimer: { label: '10-MDP primer' },
  adhesive: { label: 'universal adhesive' },
  cements: [
    { label: 'adhesive resin', class: 'adhesive-resin-dual' },
    { label: 'self-adhesive resin', class: 'self-adhesive-resin', carriesPhosphate: true },
    { label: 'resin-modified glass ionomer', class: 'resin-modified-glass-ionomer' },
  ],
  light: { mwCm2: 1200 },
};

type UnitInput = CaseInput['units'][number];

/** Invented: a monolithic 3Y zirconia crown on a lower first molar, abraded by the laboratory. */
export const ZIRCONIA: UnitInput = {
  tooth: '46',
  kind: 'crown',
  material: 'zirconia-3y',
  thicknessMm: 1,
  substrate: 'dentin',
  prep: { heightMm: 4.5, convergenceDeg: 12, widthMm: 10 },
  provisionalCement: 'non-eugenol',
  intaglioFromLab: 'abraded',
  isolation: 'dam',
  cement: 'adhesive resin',
};

/** Invented: a lithium disilicate crown on an upper second premolar, with a silicone fit check. */
export const DISILICATE: UnitInput = {
  tooth: '15',
  kind: 'crown',
  material: 'lithium-disilicate',
  translucency: 'high',
  thicknessMm: 1.5,
  substrate: 'dentin',
  prep: { heightMm: 4, convergenceDeg: 16, widthMm: 7 },
  provisionalCement: 'non-eugenol',
  intaglioFromLab: 'untreated',
  fitPaste: true,
  isolation: 'rolls',
  cement: 'adhesive resin',
};

/** An invented case of these units; `more` overrides any of its facts. */
export function inventedCase(units: readonly UnitInput[], more: Partial<CaseInput> = {}): CaseFile {
  return CaseFile.parse({
    format: 'seatcall-case/1',
    reference: 'INVENTED-1',
    invented: true,
    units,
    shelf: SHELF,
    ...more,
  });
}
