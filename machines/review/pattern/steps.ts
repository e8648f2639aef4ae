import { STEPS } from '../../contract/index.ts';
import type { RefusalId, StepId } from '../../contract/index.ts';
import type { ReviewedRecord } from '../deviation.ts';
import { Served } from './served.ts';
import type { DwellTimes } from './served.ts';

/** How often a step was asked for, and how often it was left out. */
export interface SkipRate {
  readonly step: StepId;
  readonly asked: number;
  readonly skipped: number;
}

/** How often a guard was hit. */
export interface GuardRate {
  readonly refusal: RefusalId;
  readonly hits: number;
  /** Records in which it was. */
  readonly records: number;
  readonly forced: number;
}

const isStep = (text: string): text is StepId => STEPS.some((step) => step === text);

/** The step an activity of the alignment names, `46 cleaner` or `history`; null for a contamination. */
function stepOf(activity: string): { readonly step: StepId; readonly tooth: string | null } | null {
  const space = activity.indexOf(' ');
  const name = space < 0 ? activity : activity.slice(space + 1);
  if (!isStep(name)) return null;
  return { step: name, tooth: space < 0 ? null : activity.slice(0, space) };
}

/** What was done and left out, over many records. Its size is bounded by the vocabularies. */
export class StepCounts {
  readonly #asked = new Map<StepId, number>();
  readonly #skipped = new Map<StepId, number>();
  readonly #guards = new Map<RefusalId, { hits: number; records: number; forced: number }>();
  readonly #served = new Map<StepId, Served>();

  add(record: ReviewedRecord): void {
    const asked = new Map<string, StepId>();
    for (const { kind, activity } of record.alignment.moves) {
      const named = activity === null || kind === 'log' ? null : stepOf(activity);
      if (named !== null) asked.set(`${named.tooth ?? ''} ${named.step}`, named.step);
    }
    const skipped = new Map<string, StepId>();
    for (const { grade, tooth, step } of record.deviations)
      if (grade === 'not done' && step !== null) skipped.set(`${tooth ?? ''} ${step}`, step);
    for (const [key, step] of skipped) asked.set(key, step);
    for (const step of asked.values()) this.#asked.set(step, (this.#asked.get(step) ?? 0) + 1);
    for (const step of skipped.values())
      this.#skipped.set(step, (this.#skipped.get(step) ?? 0) + 1);
    this.#guard(record);
    for (const dwell of record.units.flatMap(({ dwells }) => dwells)) {
      const served = this.#served.get(dwell.step) ?? new Served();
      served.add(dwell);
      this.#served.set(dwell.step, served);
    }
  }

  #guard({ guards }: ReviewedRecord): void {
    const here = new Set<RefusalId>();
    for (const { refusal, forced } of guards) {
      const sum = this.#guards.get(refusal) ?? { hits: 0, records: 0, forced: 0 };
      sum.hits += 1;
      sum.forced += forced ? 1 : 0;
      sum.records += here.has(refusal) ? 0 : 1;
      here.add(refusal);
      this.#guards.set(refusal, sum);
    }
  }

  /** The guard hit most first. */
  guards(): readonly GuardRate[] {
    return [...this.#guards]
      .map(([refusal, sum]) => ({ refusal, ...sum }))
      .toSorted((one, other) => other.hits - one.hits);
  }

  /** In the order of the appointment. */
  skips(): readonly SkipRate[] {
    return STEPS.flatMap((step) => {
      const asked = this.#asked.get(step);
      return asked === undefined ? [] : [{ step, asked, skipped: this.#skipped.get(step) ?? 0 }];
    });
  }

  /** In the order of the appointment. */
  dwells(): readonly DwellTimes[] {
    return STEPS.flatMap((step) => {
      const served = this.#served.get(step);
      return served === undefined ? [] : [served.result(step)];
    });
  }
}
