import {
  CaseFile,
  CEMENT_CLASSES,
  type Material,
  MATERIALS,
  SUBSTRATES,
  UNIT_KINDS,
  type UnitKind,
} from '../../machines/contract/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from './cases.ts';
import { combined } from './combinations.ts';
import { Operatory } from './operatory.ts';

const PAIRS = SUBSTRATES.flatMap((substrate) =>
  CEMENT_CLASSES.map((cement) => ({ substrate, cement })),
);

/** A combination of this material and kind that goes together, the search begun at the `n`th; null when none does. */
function someCase(material: Material, kind: UnitKind, n: number): CaseFile | null {
  for (const i of PAIRS.keys()) {
    const pair = PAIRS[(n * 7 + i) % PAIRS.length];
    const made = pair === undefined ? null : combined({ material, kind, ...pair });
    if (made !== null) return made;
  }
  return null;
}

/** The case at one or two units, with pastes and reasons taking turns. */
function turned(made: CaseFile, n: number): readonly CaseFile[] {
  const [facts] = made.units;
  if (facts === undefined) return [];
  const unit = {
    ...facts,
    tooth: '46',
    fitPaste: n % 2 === 0,
    tryInPaste: n % 2 === 1,
    ...(n % 6 === 5 ? { countsCleanReason: 'tried in under a dam, never wet' } : {}),
  };
  const other = { ...(n % 4 === 1 ? ZIRCONIA : DISILICATE), tooth: '15', cement: facts.cement };
  const units = n % 2 === 0 ? [unit] : [unit, other];
  return [CaseFile.parse({ ...made, reference: 'INVENTED-1', units })];
}

/**
 * Invented cases: each material in two kinds of unit, kinds, substrates, cements and histories taking
 * turns, one or two units; and the two plain crowns.
 */
export const STANDARD_CASES: readonly CaseFile[] = [
  inventedCase([ZIRCONIA]),
  inventedCase([DISILICATE]),
  ...MATERIALS.flatMap((material, m) => {
    const kinds = UNIT_KINDS.filter((kind) => someCase(material, kind, m) !== null);
    return [0, 1].flatMap((turn) => {
      const kind = kinds[(m + turn * 2) % kinds.length];
      const made = kind === undefined ? null : someCase(material, kind, m * 2 + turn);
      return made === null ? [] : turned(made, m * 2 + turn);
    });
  }),
];

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
