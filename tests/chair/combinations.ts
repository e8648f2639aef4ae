import {
  type CaseFile,
  CEMENT_CLASSES,
  MATERIALS,
  SUBSTRATES,
  UNIT_KINDS,
} from '../../machines/contract/index.ts';
import { caseOf, type Wanted } from '../../assistant/cli/all-cases.ts';

/** A combination that goes together, and an invented case of it: one unit, everything on the shelf. */
interface Combination extends Wanted {
  readonly case: CaseFile;
}

/** Every material with every kind of unit, substrate and class of cement that the trade lets go together. */
export function combinations(): readonly Combination[] {
  return MATERIALS.flatMap((material) =>
    UNIT_KINDS.flatMap((kind) =>
      SUBSTRATES.flatMap((substrate) =>
        CEMENT_CLASSES.flatMap((cement): Combination[] => {
          const wanted = { material, kind, substrate, cement };
          const checked = caseOf(wanted);
          return checked.ok ? [{ ...wanted, case: checked.case }] : [];
        }),
      ),
    ),
  );
}

const kept = new Map<string, CaseFile | null>();

/** The invented case of a combination; null where it does not go together. */
export function combined(wanted: Wanted): CaseFile | null {
  const key = JSON.stringify(wanted);
  const known = kept.get(key);
  if (known !== undefined) return known;
  const checked = caseOf(wanted);
  const made = checked.ok ? checked.case : null;
  kept.set(key, made);
  return made;
}
