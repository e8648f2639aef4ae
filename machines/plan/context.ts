import type { CaseFile, Cement, UnitFacts } from '../contract/index.ts';
import { SUBSTRATE_TABLE, materialOf } from '../trade/index.ts';
import type { Material, Substrate } from '../trade/index.ts';
import { cementClock } from './cement-clock.ts';
import type { CementClock } from './cement-clock.ts';
import { lightPlan } from './light-plan.ts';
import type { LightPlan } from './light-plan.ts';
import { retentionVerdict } from './retention.ts';
import type { Verdict } from './retention.ts';

/** All that is worked out for one unit before its steps are laid out. */
export interface UnitContext {
  readonly caseFile: CaseFile;
  readonly unit: UnitFacts;
  readonly material: Material;
  readonly substrate: Substrate;
  readonly cement: Cement;
  readonly clock: CementClock;
  readonly retention: Verdict;
  /** Null when there is no light, or the cement is not set by light. */
  readonly light: LightPlan | null;
  /** True when the set must be waited for. */
  readonly waitForSet: boolean;
}

/** Null when the unit's cement is not on the shelf, which `checkCase` refuses. */
export const unitContext = (caseFile: CaseFile, unit: UnitFacts): UnitContext | null => {
  const cement = caseFile.shelf.cements.find(({ label }) => label === unit.cement);
  if (cement === undefined) return null;
  const clock = cementClock(cement, caseFile.roomC);
  const light = clock.table.lightCured ? lightPlan(unit, caseFile.shelf.light) : null;
  return {
    caseFile,
    unit,
    material: materialOf(unit.material),
    substrate: SUBSTRATE_TABLE[unit.substrate],
    cement,
    clock,
    retention: retentionVerdict({
      tooth: unit.tooth,
      prep: unit.prep ?? { heightMm: 4, convergenceDeg: 0, widthMm: 8 },
    }),
    light,
    waitForSet: light === null || !light.reaches,
  };
};
