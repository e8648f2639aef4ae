import type { CaseFile, Cement, Shelf, UnitFacts } from '../contract/index.ts';
import { tradeOf } from '../trade/index.ts';
import type { Material, Substrate, Trade } from '../trade/index.ts';
import { cementClock } from './cement-clock.ts';
import type { CementClock } from './cement-clock.ts';
import { lightPlan } from './light-plan.ts';
import type { LightPlan } from './light-plan.ts';
import { prepRoute } from './prep-route.ts';
import { retentionVerdict } from './retention.ts';
import type { Verdict } from './retention.ts';
import { needsPrimer } from './route.ts';
import { seatsOf } from './seats.ts';
import type { Seat } from './seats.ts';

/** All that is worked out for one unit before its steps are laid out. */
export interface UnitContext {
  readonly caseFile: CaseFile;
  /** The tables, with the numbers of the shelf in them. */
  readonly trade: Trade;
  readonly unit: UnitFacts;
  readonly material: Material;
  /** Under the unit's own tooth. */
  readonly substrate: Substrate;
  /** All that it sits on; more than one only under a bridge. */
  readonly seats: readonly Seat[];
  readonly cement: Cement;
  readonly clock: CementClock;
  readonly retention: Verdict;
  /** Null when there is no light, or the cement is not set by light. */
  readonly light: LightPlan | null;
  /** True when the set must be waited for. */
  readonly waitForSet: boolean;
}

/** What on its surfaces speeds the cement on contact, by its label; null when nothing does. */
const touchedBy = (unit: UnitFacts, cement: Cement, shelf: Shelf, trade: Trade): string | null => {
  const { silane, phosphatePrimer, metalPrimer, adhesive } = shelf;
  const inside = { silane, 'zirconia-primer': phosphatePrimer, 'metal-primer': metalPrimer };
  const primer = needsPrimer(unit, shelf) ? inside[trade.materials[unit.material].primer] : null;
  const route = prepRoute(unit, shelf, cement);
  const used = [
    primer,
    route.includes('bond') ? adhesive : null,
    route.includes('abutment-primer') ? phosphatePrimer : null,
    route.includes('core-primer') ? metalPrimer : null,
  ];
  return trade.cements[cement.class].setsAlone
    ? (used.find((item) => item?.touchCure === true)?.label ?? null)
    : null;
};

/** Null when the unit's cement is not on the shelf, which `checkCase` refuses. */
export const unitContext = (
  caseFile: CaseFile,
  unit: UnitFacts,
  trade: Trade = tradeOf(caseFile.shelf.numbers),
): UnitContext | null => {
  const { shelf, roomC } = caseFile;
  const cement = shelf.cements.find(({ label }) => label === unit.cement);
  if (cement === undefined) return null;
  const clock = cementClock(cement, roomC, trade, touchedBy(unit, cement, shelf, trade));
  const light = clock.table.lightCured ? lightPlan(unit, shelf.light, trade) : null;
  return {
    caseFile,
    trade,
    unit,
    material: trade.materials[unit.material],
    substrate: trade.substrates[unit.substrate],
    seats: seatsOf(unit),
    cement,
    clock,
    retention: retentionVerdict(unit, trade),
    light,
    waitForSet: clock.table.setsAlone && (light === null || !light.reaches),
  };
};
