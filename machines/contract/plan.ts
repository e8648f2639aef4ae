import { z } from 'zod';
import { CAUTIONS, CEMENT_CLASSES, MATERIALS, STEPS, TEETH, UNIT_KINDS } from './terms.ts';

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

/**
 * How long the surface a step leaves stays good: one of `before` must have begun within
 * `seconds` of the end of the step, or the surface is stale (trade reference, 9B).
 */
export const GoodFor = z.strictObject({
  seconds: z.number().positive(),
  /** The steps that use the surface, as far as they are in the plan; the first to begin ends the wait. */
  before: z.array(z.enum(STEPS)).min(1),
  /** What to do when it has lapsed, as a sentence. */
  lapsed: z.string(),
  mark: Mark,
  source: z.string(),
});
export type GoodFor = z.infer<typeof GoodFor>;

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
  /** Null: what it leaves does not go stale. */
  goodFor: GoodFor.nullable().default(null),
  cautions: z.array(z.enum(CAUTIONS)),
  /** Steps of the case are done once for all units. */
  scope: z.enum(['case', 'unit']),
});
export type PlanStep = z.infer<typeof PlanStep>;

/** Limits are null where form is not what holds the unit (a veneer, an inlay, a wing). */
export const Retention = z.strictObject({
  /** Total convergence at which half the opposing wall still resists, degrees. */
  limitDeg: z.number().nullable(),
  ratio: z.number().nullable(),
  /** Whether cement that only fills may be used; where no form is computed, what the sentence says it rests on. */
  holds: z.boolean(),
  sentence: z.string(),
  working: z.array(z.string()),
});

export const UnitPlan = z.strictObject({
  tooth: z.enum(TEETH),
  toothName: z.string(),
  kind: z.enum(UNIT_KINDS).default('crown'),
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
    /** Setting time in the mouth, seconds from mix; of a light-cure cement, the end of its working time. */
    settingS: z.number().positive(),
    /** True when light alone can't be relied on and the set must be waited for. */
    waitForSet: z.boolean(),
  }),
  /** Steps in order, for the intaglio route expected after the try-in. */
  steps: z.array(PlanStep),
  /** Steps that come in only if something happens (another contaminant, a second cleaning). */
  spare: z.array(PlanStep),
  /** Thickness, connector, light and retention worked out, one sentence each. */
  working: z.array(z.string()).default([]),
  /** Steps that must never be taken on this material, and why. */
  never: z.array(z.strictObject({ step: z.enum(STEPS), why: z.string() })).default([]),
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
  /** Seating order: the units of one mix stand together. Empty in plans made before there was one. */
  order: z.array(z.array(z.enum(TEETH)).min(1)).default([]),
  /** Lots past their date that a reason was given for. */
  expired: z
    .array(
      z.strictObject({
        item: z.string(),
        lot: z.string(),
        expires: z.string(),
        reason: z.string(),
      }),
    )
    .default([]),
});
export type Plan = z.infer<typeof Plan>;
