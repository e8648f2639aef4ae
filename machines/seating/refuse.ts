import type { Refusal, RefusalId, StepId } from '../contract/index.ts';
import { NEVER_OVERRIDDEN } from '../contract/index.ts';
import { intaglioRoute } from '../plan/index.ts';
import { materialOf } from '../trade/index.ts';
import { causeOf } from './cause.ts';
import type { Facts, UnitContext } from './context.ts';
import { shortByS } from './dwell.ts';
import { remakes, staleFor } from './fresh.ts';
import { BUSY, CLEANED, CURES, RINSE_OF, TREATMENTS } from './steps.ts';

/** Refusals where there is nothing to override: the thing asked for does not exist as things stand. */
const NOTHING_THERE: readonly RefusalId[] = [
  ...NEVER_OVERRIDDEN,
  // law 7 has its own way: `short`, with a reason
  'dwell-too-short',
  'dwell-running',
  'no-dwell',
  'cannot-hold',
  'provisional-on',
  'not-in-mouth',
  'already-in-mouth',
  'not-seated',
  'seated-already',
  'mixed-already',
  'reason-needed',
  'nothing-asked',
  'nothing-to-undo',
  'cannot-undo',
  'nothing-to-override',
  'no-override',
  'nothing-before',
  'paused',
  'stopped',
  'closed',
  'no-such-unit',
  'nothing-to-say',
];

/** What has to come first, for the steps that follow on another. */
const BEFORE: Partial<Record<StepId, StepId>> = {
  'cleaner-rinse': 'cleaner',
  'acid-clean-rinse': 'acid-clean',
  'porcelain-etch-rinse': 'porcelain-etch',
  'acid-clean': 'porcelain-etch',
  'tooth-etch-rinse': 'tooth-etch',
  'bond-thin': 'bond',
  'prep-moist': 'tooth-etch-rinse',
  'screw-in': 'joint-finish',
  torque: 'screw-in',
  'access-close': 'torque',
  tack: 'seat',
  'gel-wait': 'seat',
  gel: 'flash',
  'cure-occlusal': 'flash',
  'cure-buccal': 'flash',
  'cure-lingual': 'flash',
  set: 'flash',
};

const runs = (context: UnitContext, step: StepId): boolean =>
  context.dwells.some((dwell) => dwell.step === step);
const plans = (context: UnitContext, step: StepId): boolean =>
  context.plan.steps.some(({ id }) => id === step);

/** The steps towards an intaglio ready for cement, from what lies on it now. */
function intaglioWays(context: UnitContext): readonly StepId[] {
  const { now, contaminants, texture, intaglioAgent: agent } = context;
  if (runs(context, 'abrade')) return ['abrade'];
  if (agent !== null && runs(context, agent.step)) return [agent.step];
  if (now.intaglio === 'underAgent') {
    const off = agent === null ? undefined : RINSE_OF[agent.step];
    return off === undefined ? [] : [off];
  }
  if (now.intaglio === 'coated') return ['primer-dry'];
  const wet = now.intaglio === 'rinsed' || now.intaglio === 'soiled';
  const route = intaglioRoute(context.facts, context.shelf, {
    contaminants,
    texture,
    primed: false,
    wet,
  });
  // Water prepares for cleaning and does not replace it: once is enough.
  return route.filter((id) => id !== 'intaglio-rinse' || context.steps[id] !== 'done');
}

/** The next of them; null when there is none. */
const intaglioWay = (context: UnitContext): StepId | null => intaglioWays(context)[0] ?? null;

/** What to take in place of an agent that does not suit the material: what treats it, or what is next. */
const insteadOf = (context: UnitContext): StepId | null =>
  intaglioWays(context).find((id) => TREATMENTS.includes(id)) ?? intaglioWay(context);

/** The next step towards a prep ready for its cement. */
function prepWay(context: UnitContext): StepId | null {
  const { steps } = context;
  const owed = (step: StepId): boolean =>
    plans(context, step) && steps[step] !== 'done' && steps[step] !== 'skipped';
  const last = (['bond', 'prep-moist', 'prep-dry'] as const).find((id) => plans(context, id));
  const primer = (['core-primer', 'abutment-primer'] as const).find(owed);
  const conditioned = primer ?? last ?? 'prep-moist';
  switch (context.now.prep) {
    case 'covered':
      return 'provisional-off';
    case 'exposed':
      return CLEANED.find(owed) ?? CLEANED.find((id) => plans(context, id)) ?? 'pumice';
    case 'clean':
      if (owed('prep-roughen')) return 'prep-roughen';
      return plans(context, 'tooth-etch') ? 'tooth-etch' : conditioned;
    case 'underAcid':
      return runs(context, 'tooth-etch') ? 'tooth-etch' : 'tooth-etch-rinse';
    case 'etched':
      return owed('prep-roughen') ? 'prep-roughen' : conditioned;
    case 'coated':
      if (context.prepAgent !== null && runs(context, context.prepAgent.step)) {
        return context.prepAgent.step;
      }
      if (context.prepAgent?.step === 'bond') return 'bond-thin';
      if (owed('prep-roughen')) return 'prep-roughen';
      if (context.prepAgent?.overEtched === true) return conditioned;
      // A primer that no plan had over an etched tooth: etched again, and on from there.
      if (plans(context, 'tooth-etch')) return 'tooth-etch';
      return last === 'bond' ? 'bond' : 'prep-dry';
    default:
      return null;
  }
}

/** The next step towards cement that is set. */
function cementWay(context: UnitContext): StepId | null {
  switch (context.now.cement) {
    case 'seated':
      if (context.steps.seat !== 'done') return 'seat';
      return plans(context, 'tack') ? 'tack' : 'gel-wait';
    case 'tacked':
      return 'flash';
    case 'cleared':
      if (context.plan.cement.waitForSet) return 'set';
      return CURES.find((id) => context.steps[id] !== 'done') ?? 'cure-lingual';
    default:
      return null;
  }
}

const AFTER_SET: readonly StepId[] = [
  'flash',
  'floss',
  'isolation-out',
  'residual',
  'bite-after',
  'polish',
  'joint-finish',
];

/** Steps of the prep that want something done before them. */
const PREP_LAST: readonly StepId[] = [
  'tooth-etch',
  'core-primer',
  'abutment-primer',
  'bond',
  'prep-moist',
  'prep-dry',
];

function prerequisite(context: UnitContext, step: StepId | null): StepId | null {
  if (step === null) return null;
  if (step === 'primer-dry') return materialOf(context.facts.material).primer;
  if (PREP_LAST.includes(step)) return prepWay(context) ?? BEFORE[step] ?? 'tooth-etch';
  if (AFTER_SET.includes(step)) return cementWay(context);
  return BEFORE[step] ?? null;
}

/** The step that would make the refused one acceptable; null where no step does. */
function wayOn({ context, event }: Facts, id: RefusalId): StepId | null {
  const { step, at } = event;
  switch (id) {
    case 'in-mouth':
      return context.now.where === 'mouth' ? 'take-out' : null;
    case 'already-in-mouth':
      return 'take-out';
    case 'abrade-glass':
    case 'silicone-needs-etch':
      return underAgent(context) ? intaglioWay(context) : 'porcelain-etch';
    case 'silicone-needs-abrasion':
      return underAgent(context) ? intaglioWay(context) : 'abrade';
    case 'silane-on-zirconia':
    case 'primer-on-glass':
    case 'wrong-primer':
      return materialOf(context.facts.material).primer;
    case 'etch-not-etchable':
    case 'acid-before-primer':
    case 'cleaner-on-glass':
      return insteadOf(context);
    case 'agent-still-on':
    case 'not-rinsed':
    case 'intaglio-wet':
    case 'intaglio-not-primed':
    case 'intaglio-soiled':
    case 'intaglio-not-conditioned':
      return intaglioWay(context);
    case 'surface-stale': {
      const past = step === null ? null : staleFor(context, step, at);
      return past === null ? null : remakes(context, past);
    }
    case 'intaglio-busy':
      return context.dwells.find(({ step: one }) => BUSY.includes(one))?.step ?? null;
    case 'prep-not-ready':
    case 'prep-not-clean':
    case 'acid-on-dentin':
      return prepWay(context);
    case 'field-open':
      return 'isolate';
    case 'field-wet':
      return 'dry-check';
    case 'not-mixed':
      return 'mix';
    case 'not-loaded':
      return 'load';
    case 'working-time-over':
      return context.now.cement === 'mixed' ? 'mix' : null;
    case 'provisional-on':
      return 'provisional-off';
    case 'not-in-mouth':
      return 'try-in';
    case 'not-seated':
      return 'seat';
    case 'first':
      return prerequisite(context, step);
    case 'no-dwell':
    case 'dwell-running':
    case 'dwell-too-short':
      return step;
    default:
      return null;
  }
}

const underAgent = (context: UnitContext): boolean => context.now.intaglio === 'underAgent';

/** A refusal about the case rather than a unit: nothing on a surface stands in the way. */
export function plainRefusal(id: RefusalId, overridable = false): Refusal {
  return { id, step: null, wayOn: null, seconds: null, overridable };
}

/** A refusal with its way on (law 9), for an event a unit would not take. */
export function refusal({ context, event }: Facts, id: RefusalId): Refusal {
  const { step } = event;
  const because = causeOf({ context, event }, id);
  return {
    id,
    step,
    wayOn: wayOn({ context, event }, id),
    seconds: id === 'dwell-too-short' && step !== null ? shortByS(context, step, event.at) : null,
    overridable: !NOTHING_THERE.includes(id),
    ...(because === undefined ? {} : { because }),
  };
}
