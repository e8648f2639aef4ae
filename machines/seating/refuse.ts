import type { Refusal, RefusalId, StepId } from '../contract/index.ts';
import { NEVER_OVERRIDDEN } from '../contract/index.ts';
import { materialOf } from '../trade/index.ts';
import type { Facts, UnitContext } from './context.ts';
import { shortByS } from './dwell.ts';
import { asked, INTAGLIO_STEPS, PREP_STEPS } from './steps.ts';

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

const RINSE_OF: Partial<Record<StepId, StepId>> = {
  cleaner: 'cleaner-rinse',
  'acid-clean': 'acid-clean-rinse',
  'porcelain-etch': 'porcelain-etch-rinse',
};

/** What has to come first, for the steps that follow on another. */
const BEFORE: Partial<Record<StepId, StepId>> = {
  'cleaner-rinse': 'cleaner',
  'acid-clean-rinse': 'acid-clean',
  'porcelain-etch-rinse': 'porcelain-etch',
  'acid-clean': 'porcelain-etch',
  'tooth-etch-rinse': 'tooth-etch',
  'bond-thin': 'bond',
  tack: 'seat',
  'gel-wait': 'seat',
  gel: 'flash',
  'cure-occlusal': 'flash',
  'cure-buccal': 'flash',
  'cure-lingual': 'flash',
  set: 'flash',
};

function firstOpen(context: UnitContext, among: readonly StepId[]): StepId | null {
  const open = asked(context).filter(
    (id) => among.includes(id) && context.steps[id] !== 'done' && context.steps[id] !== 'skipped',
  );
  return open[0] ?? among.find((id) => asked(context).includes(id)) ?? null;
}

function prerequisite(context: UnitContext, step: StepId | null): StepId | null {
  if (step === null) return null;
  if (step === 'primer-dry') return coat(context);
  if (step === 'bond') return context.now.prep === 'underAcid' ? 'tooth-etch-rinse' : 'tooth-etch';
  if (step === 'flash' || step === 'floss') return firstOpen(context, ['tack', 'gel-wait']);
  const after: readonly StepId[] = ['isolation-out', 'residual', 'bite-after', 'polish'];
  if (after.includes(step)) {
    return firstOpen(context, ['flash', 'cure-occlusal', 'cure-buccal', 'cure-lingual', 'set']);
  }
  return BEFORE[step] ?? null;
}

function coat(context: UnitContext): StepId {
  return materialOf(context.facts.material).etchable ? 'silane' : 'zirconia-primer';
}

/** The step that would make the refused one acceptable; null where no step does. */
function wayOn(context: UnitContext, id: RefusalId, step: StepId | null): StepId | null {
  const agent = context.intaglioAgent?.step;
  switch (id) {
    case 'in-mouth':
      return context.now.where === 'mouth' ? 'take-out' : null;
    case 'agent-still-on':
    case 'not-rinsed':
      return agent === undefined ? null : (RINSE_OF[agent] ?? null);
    case 'abrade-glass':
    case 'silicone-needs-etch':
      return 'porcelain-etch';
    case 'silicone-needs-abrasion':
      return 'abrade';
    case 'silane-on-zirconia':
      return 'zirconia-primer';
    case 'primer-on-glass':
      return 'silane';
    case 'intaglio-wet':
      return context.now.intaglio === 'coated' ? 'primer-dry' : 'intaglio-dry';
    case 'intaglio-not-primed':
      return coat(context);
    case 'etch-not-etchable':
    case 'acid-before-primer':
    case 'cleaner-on-glass':
    case 'intaglio-soiled':
    case 'intaglio-not-conditioned':
      return firstOpen(context, INTAGLIO_STEPS);
    case 'intaglio-busy':
      return context.dwells[0]?.step ?? null;
    case 'prep-not-ready':
    case 'prep-not-clean':
    case 'acid-on-dentin':
      return firstOpen(context, PREP_STEPS);
    case 'field-open':
      return 'isolate';
    case 'field-wet':
      return 'dry-check';
    case 'not-mixed':
      return 'mix';
    case 'not-loaded':
      return 'load';
    case 'provisional-on':
      return 'provisional-off';
    case 'not-in-mouth':
      return 'try-in';
    case 'not-seated':
      return 'seat';
    case 'first':
      return prerequisite(context, step);
    case 'no-dwell':
    case 'dwell-too-short':
      return step;
    default:
      return null;
  }
}

/** A refusal about the case rather than a unit: nothing on a surface stands in the way. */
export function plainRefusal(id: RefusalId, overridable = false): Refusal {
  return { id, step: null, wayOn: null, seconds: null, overridable };
}

/** A refusal with its way on (law 9), for an event a unit would not take. */
export function refusal({ context, event }: Facts, id: RefusalId): Refusal {
  const { step } = event;
  return {
    id,
    step,
    wayOn: wayOn(context, id, step),
    seconds: id === 'dwell-too-short' && step !== null ? shortByS(context, step, event.at) : null,
    overridable: !NOTHING_THERE.includes(id),
  };
}
