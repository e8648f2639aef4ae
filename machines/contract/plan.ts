import { z } from 'zod';
import { CAUTIONS, CEMENT_CLASSES, MATERIALS, STEPS, TEETH } from './terms.ts';

/** Honesty mark of a number: see the trade tables. */
export const Mark = z.enum([
  'published',
  'memory',
  'common-practice',
  'judgement',
  'computed',
  'shelf',
]);
export type Mark = z.infer<typeof Mark>;

/** A dwell's window in seconds, and where it comes from. */
export const Dwell = z.strictObject({
  minS: z.number().min(0),
  targetS: z.number().positive(),
  /** Null: longer does no harm. */
  maxS: z.number().positive().nullable(),
  /** True when the work can be interrupted without the agent working on (a rinse, a light), so that it may be held. */
  holdable: z.boolean(),
  /**
   * What its seconds are counted from: the begin of the step, or the begin of the mix
   * (gel and set go on whether or not anyone has begun to wait for them).
   */
  from: z.enum(['begin', 'mix']),
  mark: Mark,
  source: z.string(),
});
export type Dwell = z.infer<typeof Dwell>;

export const PlanStep = z.strictObject({
  id: z.enum(STEPS),
  /** Short name for screens. */
  title: z.string(),
  /** The one thing to do, in the words of the chair. */
  todo: z.string(),
  /** What must be seen before it counts as done; empty when the doing is the evidence. */
  gate: z.string(),
  /** Why it is there; answers "why". */
  why: z.string(),
  who: z.enum(['dentist', 'assistant', 'both']),
  dwell: Dwell.nullable(),
  cautions: z.array(z.enum(CAUTIONS)),
  /** Steps of the case are done once for all units. */
  scope: z.enum(['case', 'unit']),
});
export type PlanStep = z.infer<typeof PlanStep>;

export const Retention = z.strictObject({
  /** Total convergence at which half the opposing wall still resists, degrees. */
  limitDeg: z.number(),
  ratio: z.number(),
  holds: z.boolean(),
  sentence: z.string(),
  working: z.array(z.string()),
});

export const UnitPlan = z.strictObject({
  tooth: z.enum(TEETH),
  toothName: z.string(),
  material: z.enum(MATERIALS),
  materialName: z.string(),
  retention: Retention,
  cement: z.strictObject({
    label: z.string(),
    class: z.enum(CEMENT_CLASSES),
    carriesPhosphate: z.boolean(),
    /** Working time at the room's temperature, seconds from mix. */
    workingS: z.number().positive(),
    workingFrom: z.string(),
    /** Setting time in the mouth, seconds from mix. */
    settingS: z.number().positive(),
    /** True when light alone can't be relied on and the set must be waited for. */
    waitForSet: z.boolean(),
  }),
  /** Steps in order, for the intaglio route expected after the try-in. */
  steps: z.array(PlanStep),
  /** Steps that come in only if something happens (another contaminant, a second cleaning). */
  spare: z.array(PlanStep),
  notes: z.array(z.string()),
});
export type UnitPlan = z.infer<typeof UnitPlan>;

export const Plan = z.strictObject({
  format: z.literal('seatcall-plan/1'),
  reference: z.string(),
  invented: z.boolean(),
  team: z.enum(['assisted', 'solo']),
  cautions: z.array(z.strictObject({ id: z.enum(CAUTIONS), text: z.string() })),
  units: z.array(UnitPlan),
});
export type Plan = z.infer<typeof Plan>;
