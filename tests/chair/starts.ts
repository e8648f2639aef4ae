import { type CaseFile, MATERIALS, SUBSTRATES } from '../../machines/contract/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from './cases.ts';
import { Operatory } from './operatory.ts';

const CEMENTS = ['adhesive resin', 'self-adhesive resin', 'resin-modified glass ionomer'] as const;

/** Invented cases: each material with each cement, substrates and histories taking turns, one or two units. */
export const STANDARD_CASES: readonly CaseFile[] = MATERIALS.flatMap((material, m) =>
  CEMENTS.flatMap((cement, c) =>
    [0, 1].map((turn) => {
      const base = material === 'zirconia-3y' ? ZIRCONIA : DISILICATE;
      const unit = {
        ...base,
        cement,
        substrate: SUBSTRATES[(c + turn) % SUBSTRATES.length] ?? 'dentin',
        intaglioFromLab: turn === 0 ? base.intaglioFromLab : ('etched' as const),
        fitPaste: turn === 0,
        tryInPaste: turn === 1,
        ...((c + m) % 3 === 2 ? { countsCleanReason: 'tried in under a dam, never wet' } : {}),
      };
      const other = material === 'zirconia-3y' ? DISILICATE : ZIRCONIA;
      return inventedCase(turn === 0 ? [unit] : [unit, { ...other, cement }]);
    }),
  ),
);

/** Every standing on the way of the standard cases by the plan, from the first step to the last. */
export function standings(): readonly Operatory[] {
  return STANDARD_CASES.flatMap((caseFile) => {
    const chair = new Operatory(caseFile);
    const found = [chair.fork()];
    while (chair.step !== null && found.length < 120) {
      chair.doStep();
      found.push(chair.fork());
    }
    return found;
  });
}
