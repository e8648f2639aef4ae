import { STEPS } from '../../contract/index.ts';
import type { StepId } from '../../contract/index.ts';
import type { DebondEventId } from '../../trade/index.ts';
import { GRADES } from '../deviation.ts';
import type { Grade, GradedDeviation, ReviewedRecord, ReviewedUnit } from '../deviation.ts';
import { logRank, Tally } from '../survival/index.ts';
import type { Rate } from '../survival/index.ts';
import { eventsSeen } from '../weigh/events.ts';
import type { Frequencies } from '../weigh/tell-apart.ts';
import { EventCounts } from './frequencies.ts';
import type { Followed, FollowUps } from './follow-up.ts';
import { compare, groupOf, Levels } from './groups.ts';
import type { Comparison, Group } from './groups.ts';
import { HazardCells } from './hazards.ts';
import type { EventHazard } from './hazards.ts';
import type { DwellTimes } from './served.ts';
import { StepCounts } from './steps.ts';
import type { GuardRate, SkipRate } from './steps.ts';

/** A part of the restorations against all the others. */
export interface Part {
  readonly restorations: number;
  readonly debonds: number;
  /** Debonds a year in place. */
  readonly rate: Rate;
  /** Debonds there would be, had it lost as many as all together; from the log-rank test. */
  readonly expected: number | null;
  readonly p: number | null;
  readonly few: boolean;
}
export interface DeparturePart extends Part {
  readonly grade: Grade;
  readonly step: StepId | null;
}
export interface LotPart extends Part {
  readonly item: string;
  readonly lot: string;
}

/** Many reviewed records together. Times in days, rates a year in place. */
export interface Pattern {
  readonly records: number;
  /** Records that are invented. */
  readonly invented: number;
  readonly restorations: number;
  readonly seated: number;
  readonly followed: number;
  /** Follow-up of another seating of the same case and tooth: its day is another. */
  readonly mismatched: number;
  readonly all: Group;
  readonly comparisons: readonly Comparison[];
  /** Hazard ratios of the events of the seating, evened out for material, time in place and one another. */
  readonly events: readonly EventHazard[];
  /** Each departure against the restorations without it, the most debonds first. */
  readonly departures: readonly DeparturePart[];
  /** Lots behind debonds: each against all other restorations, the most debonds first. */
  readonly lots: readonly LotPart[];
  readonly guards: readonly GuardRate[];
  readonly skips: readonly SkipRate[];
  readonly dwells: readonly DwellTimes[];
  /** How many comparisons were made: of a hundred, about five look sure by chance alone. */
  readonly compared: number;
  /** How many of the seated restorations had each event of the seating; for those that could have it. */
  readonly frequencies: Frequencies;
}

function rolesOf({ roles }: ReviewedUnit): string {
  const people = roles.filter((role) => role !== 'seatcall');
  return people.length === 0 ? 'nobody named' : people.join(' and ');
}

const has = (deviations: ReviewedUnit['deviations'], grade: Grade): boolean =>
  deviations.some((one) => one.grade === grade);

/** A unit's departures, with those of the whole case. */
const departuresOf = (
  { deviations }: ReviewedRecord,
  unit: ReviewedUnit,
): readonly GradedDeviation[] =>
  deviations.filter(({ tooth }) => tooth === null || tooth === unit.tooth);

const eventsOf = (record: ReviewedRecord, unit: ReviewedUnit): readonly DebondEventId[] =>
  eventsSeen(departuresOf(record, unit), [], unit.material, unit.findings).map(({ id }) => id);

/**
 * Takes reviewed records one at a time and keeps counts only: what it holds grows with different
 * follow-up days, departures and lots, not with records.
 */
export class PatternReview {
  readonly #followUps: FollowUps | null;
  readonly #all = new Tally();
  readonly #by = {
    material: new Levels(),
    cement: new Levels(),
    operator: new Levels(),
    form: new Levels(),
  };
  readonly #grades = new Levels();
  readonly #departures = new Levels();
  readonly #lots = new Levels();
  readonly #hazards = new HazardCells();
  readonly #steps = new StepCounts();
  readonly #frequencies = new EventCounts();
  #records = 0;
  #invented = 0;
  #restorations = 0;
  #seated = 0;
  #mismatched = 0;

  /** Without follow-up there are no debonds to be seen, only how the seatings went. */
  constructor(followUps: FollowUps | null = null) {
    this.#followUps = followUps;
  }

  add(record: ReviewedRecord): void {
    this.#records += 1;
    if (record.invented) this.#invented += 1;
    this.#steps.add(record);
    for (const unit of record.units) {
      this.#restorations += 1;
      if (unit.seated === null) continue;
      this.#seated += 1;
      const seen = eventsOf(record, unit);
      this.#frequencies.add(unit.material, seen);
      const found = this.#followUps?.of(record.reference, unit.tooth, unit.seated) ?? null;
      if (found === 'other') this.#mismatched += 1;
      else if (found !== null) this.#follow(record, unit, { found, seen });
    }
  }

  #follow(
    record: ReviewedRecord,
    unit: ReviewedUnit,
    { found: followed, seen }: { found: Followed; seen: readonly DebondEventId[] },
  ): void {
    const deviations = departuresOf(record, unit);
    this.#all.add(followed.days, followed.lost);
    this.#by.material.add(unit.material, followed);
    this.#by.cement.add(unit.cement.class, followed);
    this.#by.operator.add(rolesOf(unit), followed);
    this.#by.form.add(unit.formHolds ? 'form holds' : 'form does not hold', followed);
    for (const grade of GRADES) if (has(deviations, grade)) this.#grades.add(grade, followed);
    if (deviations.length > 0) this.#grades.add('any', followed);
    const kinds = new Set(deviations.map(({ grade, step }) => `${grade}|${step ?? ''}`));
    for (const kind of kinds) this.#departures.add(kind, followed);
    const lots = new Set(record.lots.map(({ item, lot }) => `${item}\n${lot}`));
    for (const lot of lots) this.#lots.add(lot, followed);
    this.#hazards.add(unit.material, seen, followed);
  }

  /** A part against the rest of all restorations. */
  #part(tally: Tally): Part {
    const { restorations, debonds, rate, few } = groupOf('', tally);
    const test = logRank({ part: tally, rest: this.#all.without(tally) });
    const expected = test?.groups[0]?.expected ?? null;
    return { restorations, debonds, rate, expected, p: test?.p ?? null, few };
  }

  #comparisons(): readonly Comparison[] {
    const sets = Object.entries(this.#by).map(([by, levels]) =>
      compare(by, Object.fromEntries(levels.entries())),
    );
    const grades = this.#grades.entries().map(([grade, tally]) => {
      const named = grade === 'any' ? 'any departure' : grade;
      const rest = grade === 'any' ? 'no departure' : 'the others';
      return compare(named, { [named]: tally, [rest]: this.#all.without(tally) });
    });
    return [...sets, ...grades];
  }

  result(): Pattern {
    const comparisons = this.#comparisons();
    const most = (one: Part, other: Part): number =>
      other.debonds - one.debonds || other.restorations - one.restorations;
    const departures = this.#departures.entries().flatMap(([kind, tally]): DeparturePart[] => {
      const [first = '', step = ''] = kind.split('|');
      const grade = GRADES.find((one) => one === first);
      if (grade === undefined) return [];
      const named = STEPS.find((one) => one === step) ?? null;
      return [{ grade, step: named, ...this.#part(tally) }];
    });
    const lots = this.#lots.entries().map(([key, tally]): LotPart => {
      const [item = '', lot = ''] = key.split('\n');
      return { item, lot, ...this.#part(tally) };
    });
    const events = this.#hazards.result();
    return {
      records: this.#records,
      invented: this.#invented,
      restorations: this.#restorations,
      seated: this.#seated,
      followed: this.#all.subjects,
      mismatched: this.#mismatched,
      all: groupOf('all', this.#all),
      comparisons,
      events,
      departures: departures.toSorted(most),
      lots: lots.toSorted(most),
      guards: this.#steps.guards(),
      skips: this.#steps.skips(),
      dwells: this.#steps.dwells(),
      frequencies: this.#frequencies.result(),
      compared: comparisons.length + departures.length + lots.length + events.length,
    };
  }
}
