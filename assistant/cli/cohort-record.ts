import { initialState } from '../../machines/conduct/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { canonical, makeHeader } from '../../machines/record/index.ts';
import type { FollowUp } from '../../machines/review/pattern/index.ts';
import { eventsSeen } from '../../machines/review/weigh/index.ts';
import type { DebondEventId } from '../../machines/trade/index.ts';
import { SOFTWARE } from '../session/software.ts';
import { Chance } from './cohort-chance.ts';
import { InventedChair } from './cohort-chair.ts';
import type { InventedKey } from './cohort-key.ts';
import { recalls } from './cohort-outcome.ts';
import { appointment, BAD_LOT } from './cohort-practice.ts';
import { seat } from './cohort-seating.ts';
import { slipsFor } from './cohort-slips.ts';

/** One invented appointment: its record file and what recalls said later. */
export interface InventedRecord {
  readonly name: string;
  readonly text: string;
  readonly followUps: readonly FollowUp[];
  /** The events of its seating that its crown's fate was drawn with. */
  readonly events: readonly DebondEventId[];
}

export interface CohortOptions {
  readonly seed: number;
  /** Multiplies every hazard; 1 for a believable practice. */
  readonly haste: number;
}

/**
 * The `index`th record of an invented practice: an appointment driven through the one way every
 * command takes, hash-chained and sealed. Each depends on the seed and its index alone.
 */
export function inventedRecord(
  { seed, haste }: CohortOptions,
  index: number,
  key: InventedKey,
): InventedRecord {
  const chance = new Chance(seed, index + 1);
  const { caseFile, opened, careless, cement } = appointment(seed, index, chance);
  const plan = makePlan(caseFile);
  const [unit] = caseFile.units;
  const [unitPlan] = plan.units;
  if (unit === undefined || unitPlan === undefined) throw new Error('An appointment has a unit.');
  const header = makeHeader({
    invented: true,
    software: `${SOFTWARE} (invented cohort)`,
    opened: new Date(opened).toISOString(),
    case: caseFile,
    plan,
  });
  const state = initialState(caseFile, plan);
  const chair = new InventedChair(state, canonical(header), opened, chance);
  const slips = slipsFor(
    unitPlan.steps.map(({ id }) => id),
    careless,
    chance,
  );
  const closed = seat(chair, slips, cement);
  const seal = closed ? [canonical(key.close(chair.head, chair.wall))] : [];
  const { reference } = caseFile;
  const departures = chair.done.map((one) => ({
    ...one,
    tooth: unit.tooth,
    entries: [],
    asked: '',
    found: '',
    source: '',
  }));
  const events = eventsSeen(departures, [], unit.material).map(({ id }) => id);
  const lot = caseFile.shelf.cements.find(({ label }) => label === cement)?.lot;
  const fate = { material: unit.material, events, badLot: lot === BAD_LOT, haste };
  const followUps =
    chair.unit.now.where === 'seated'
      ? recalls(chair.wall, reference, unit.tooth, fate, chance)
      : [];
  return {
    name: `seatcall-${new Date(opened).toISOString().slice(0, 10)}-${reference}.jsonl`,
    text: [...chair.lines, ...seal].map((line) => `${line}\n`).join(''),
    followUps,
    events,
  };
}
