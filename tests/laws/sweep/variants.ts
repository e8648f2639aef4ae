import type { CaseFile } from '../../../machines/contract/index.ts';
import { texturing } from '../materials.ts';

/**
 * The histories a unit can arrive with. Untreated by the laboratory, with both pastes planned: it comes to
 * every surface there is. Conditioned by the laboratory and excused by the case: it starts where the first does
 * not. Each with a provisional, which is off sooner or later.
 */
export function variants(caseFile: CaseFile): readonly CaseFile[] {
  const [unit] = caseFile.units;
  if (unit === undefined) return [];
  const as = (more: Partial<typeof unit>): CaseFile => ({
    ...caseFile,
    units: [{ ...unit, provisionalCement: 'non-eugenol', ...more }],
  });
  const made = texturing(unit) === 'abrade' ? 'abraded' : 'etched';
  return [
    as({ intaglioFromLab: 'untreated', fitPaste: true, tryInPaste: true }),
    as({ intaglioFromLab: made, countsCleanReason: 'tried in under a dam, never wet' }),
  ];
}
