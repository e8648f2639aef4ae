import { CaseFile, type CaseInput } from '../../machines/contract/index.ts';
import { disilicateUnit, fullShelf, zirconiaUnit } from '../case-samples.ts';

/** Invented: a practice with everything on its shelf, by its chemistry. */
export const SHELF: CaseInput['shelf'] = {
  ...fullShelf,
  cleaner: { label: 'alkaline zirconia-suspension cleaner', lot: 'INV-01' },
  hydrofluoricAcid: { label: 'porcelain etch 5 %', percent: 5 },
  phosphoricAcid: { label: 'phosphoric acid 37 %' },
  phosphatePrimer: { label: '10-MDP primer' },
  cements: [
    { label: 'adhesive resin', class: 'adhesive-resin-dual' },
    { label: 'self-adhesive resin', class: 'self-adhesive-resin', carriesPhosphate: true },
    { label: 'resin-modified glass ionomer', class: 'resin-modified-glass-ionomer' },
  ],
};

type UnitInput = CaseInput['units'][number];

/** Invented: a monolithic 3Y zirconia crown on a lower first molar, abraded by the laboratory. */
export const ZIRCONIA: UnitInput = { ...zirconiaUnit, cement: 'adhesive resin' };

/** Invented: a lithium disilicate crown on an upper second premolar, with a silicone fit check. */
export const DISILICATE: UnitInput = {
  ...disilicateUnit,
  tooth: '15',
  translucency: 'high',
  prep: { heightMm: 4, convergenceDeg: 16, widthMm: 7 },
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
