import type { GoodFor, StepId } from '../contract/index.ts';
import { intaglioRoute } from '../plan/index.ts';
import { materialOf } from '../trade/index.ts';
import type { Facts, Made, UnitContext } from './context.ts';
import { INTAGLIO_COATS, INTAGLIO_STEPS, planStep, PREP_STEPS, TREATMENTS } from './steps.ts';

/** Steps that clean a prep: what was made on it before is gone. */
const CLEANING: readonly StepId[] = ['prep-clean', 'pumice', 'abutment-clean', 'base-abrade'];
/** What stands no more once one of these has begun. */
const UNDOES: Partial<Record<StepId, readonly StepId[]>> = {
  'tooth-etch': ['tooth-etch-rinse', 'bond-thin'],
  'core-primer': ['bond-thin'],
  'abutment-primer': ['bond-thin'],
  bond: ['bond-thin'],
};

const goodFor = (context: UnitContext, step: StepId): GoodFor | null =>
  planStep(context, step)?.goodFor ?? null;

/** Steps whose product an event does away with. */
function goneBy({ event }: Facts): readonly StepId[] {
  const { step, type } = event;
  if (type === 'soil.intaglio') return INTAGLIO_STEPS;
  if (type === 'soil.prep') return PREP_STEPS;
  if (type === 'start-over' || type === 'begin.try-in') return [...INTAGLIO_STEPS, ...PREP_STEPS];
  if (step === null) return [];
  if (CLEANING.includes(step) && !type.startsWith('skip.')) return PREP_STEPS;
  // The etched tooth is under its adhesive now.
  if (type === 'finish.bond-thin') return ['tooth-etch-rinse'];
  if (!type.startsWith('begin.')) return [];
  if (TREATMENTS.includes(step)) return INTAGLIO_STEPS;
  if (INTAGLIO_COATS.includes(step)) return ['primer-dry'];
  return UNDOES[step] ?? [];
}

/**
 * What stands made after an event, and since when. A product is timed from the end of the step that
 * first made it: drying a second time makes it no younger.
 */
export function madeAfter(facts: Facts): UnitContext['made'] {
  const { context, event } = facts;
  const { step, type } = event;
  const gone = goneBy(facts);
  const stays = context.made.filter((one) => !gone.includes(one.step));
  if (step === null) return stays;
  if (type.startsWith('begin.')) {
    return stays.map((one) =>
      goodFor(context, one.step)?.before.includes(step) === true && !one.used.includes(step)
        ? { ...one, used: [...one.used, step] }
        : one,
    );
  }
  const makes = type.startsWith('finish.') && goodFor(context, step) !== null;
  if (!makes || stays.some((one) => one.step === step)) return stays;
  return [...stays, { step, at: event.at, used: [] }];
}

/** Case time at which a product is past, ms. */
export function staleAt(context: UnitContext, { step, at }: Made): number {
  return at + (goodFor(context, step)?.seconds ?? Number.POSITIVE_INFINITY) * 1000;
}

/** The stale product that stands in the way of a step; null when there is none. */
export function staleFor(context: UnitContext, step: StepId, at: number): StepId | null {
  const past = context.made.find((made) => {
    const before = goodFor(context, made.step)?.before ?? [];
    // A primer past its time is not primed over: the surface is cleaned first.
    const uses =
      before.includes(step) || (made.step === 'primer-dry' && INTAGLIO_COATS.includes(step));
    // Begun in time with another of its steps: the mix was in time, so the load is.
    const begun = made.used.some((one) => one !== step && before.includes(one));
    return uses && !begun && at > staleAt(context, made);
  });
  return past?.step ?? null;
}

/** What has to be done again for a product past its time. */
export function remakes(context: UnitContext, step: StepId): StepId {
  const { conditioner } = materialOf(context.facts.material);
  switch (step) {
    case 'intaglio-dry':
      return conditioner;
    case 'primer-dry': {
      const soiled = { contaminants: ['glove'], texture: context.texture, primed: false } as const;
      const route = intaglioRoute(context.facts, context.shelf, soiled);
      return route.find((id) => TREATMENTS.includes(id)) ?? conditioner;
    }
    case 'tooth-etch-rinse':
      return 'tooth-etch';
    case 'bond-thin':
      return 'bond';
    default:
      return step;
  }
}
