import type { Contaminant, RefusalId, StepId } from '../contract/index.ts';
import { cleans, needsPrimer } from '../plan/index.ts';
import { peroxideSpoils, substratesOf } from '../plan/seats.ts';
import { shelfHas } from '../plan/shelf.ts';
import { materialOf } from '../trade/index.ts';
import { CEMENT_TABLE } from '../trade/cements.ts';
import type { Facts, UnitContext } from './context.ts';
import { running, shortByS, windowOf } from './dwell.ts';
import { staleFor } from './fresh.ts';
import { BUSY, INTAGLIO_AGENTS, planStep, PREP_PRIMERS } from './steps.ts';

/**
 * The laws as single questions. Each answers null when nothing stands in the way, or the reason why
 * something does. The charts use them as guards under the same names; a refusal is the first that answers.
 */
export type Rule = (facts: Facts) => RefusalId | null;

const etchable = (context: UnitContext): boolean => materialOf(context.facts.material).etchable;
const stands = ({ steps }: UnitContext, step: StepId): boolean =>
  steps[step] === 'done' || steps[step] === 'skipped';
/** Whether the plan has a step that is neither done nor skipped. */
const owed = (context: UnitContext, step: StepId): boolean =>
  planHas(context, step) && !stands(context, step);
const when = (bad: boolean, id: RefusalId): RefusalId | null => (bad ? id : null);

/** What is on the intaglio that this step does not take off. */
export function leftBy(context: UnitContext, step: StepId): readonly Contaminant[] {
  const removed = cleans(context.facts.material, step);
  return context.contaminants.filter((one) => !removed.includes(one));
}

/** Why an intaglio is not conditioned: the most telling reason first. */
function unconditioned({ context }: Facts): RefusalId | null {
  const { intaglio } = context.now;
  if (intaglio === 'conditioned' || intaglio === 'primed') return null;
  return unclean(context) ?? 'intaglio-wet';
}

/** What keeps an intaglio from being clean and textured: the gravest first, so that an override answers for the rest. */
function unclean(context: UnitContext): RefusalId | null {
  if (context.contaminants.includes('fit-paste')) {
    return etchable(context) ? 'silicone-needs-etch' : 'silicone-needs-abrasion';
  }
  if (context.contaminants.length > 0) return 'intaglio-soiled';
  if (context.now.intaglio === 'underAgent') return 'not-rinsed';
  const { texture } = materialOf(context.facts.material);
  return when(context.texture !== texture, 'intaglio-not-conditioned');
}

/** What keeps an intaglio from taking cement, the gravest first. */
function unprimed({ context }: Facts): RefusalId | null {
  const { intaglio } = context.now;
  if (intaglio === 'primed' || intaglio === 'loaded') return null;
  if (intaglio === 'conditioned' && !needsCoat(context)) return null;
  const why = unclean(context);
  if (why !== null) return why;
  const agent = context.intaglioAgent;
  const right = agent?.step === materialOf(context.facts.material).primer && agent.served;
  const primed = intaglio === 'coated' && right;
  return needsCoat(context) && !primed ? 'intaglio-not-primed' : 'intaglio-wet';
}

/** Whether cleaner or acid lies on the intaglio, not rinsed off. */
const agentLies = ({ intaglioAgent }: UnitContext): boolean =>
  intaglioAgent !== null && INTAGLIO_AGENTS.includes(intaglioAgent.step);

function prepUnready({ context }: Facts): RefusalId | null {
  const { prep } = context.now;
  if (prep === 'ready') return null;
  return prep === 'covered' ? 'provisional-on' : 'prep-not-ready';
}

function fieldUndry({ context }: Facts): RefusalId | null {
  // A titanium base is bonded on the bench: there is no field to isolate.
  if (context.now.field === 'dry' || !planHas(context, 'isolate')) return null;
  return context.now.field === 'open' ? 'field-open' : 'field-wet';
}

/** Whether this ceramic and cement ask for a primer. */
export function needsCoat(context: UnitContext): boolean {
  return needsPrimer(context.facts, context.shelf);
}

/** Milliseconds of case time at which the mixed cement is past; null when none is mixed. */
export function spoilsAt(context: UnitContext): number | null {
  return context.mixedAt === null ? null : context.mixedAt + context.plan.cement.workingS * 1000;
}

/** Whether the mixed cement is past its working time, unless it is already seated. */
export function isSpoilt(context: UnitContext, at: number): boolean {
  const end = spoilsAt(context);
  const waiting = context.now.cement === 'mixed' || context.now.cement === 'loaded';
  return waiting && end !== null && at > end;
}

export const RULES = {
  // law 2
  outOfMouth: ({ context }) => when(context.now.where !== 'bench', 'in-mouth'),
  agentOff: ({ context }) => when(agentLies(context), 'agent-still-on'),
  // law 3
  etchableCeramic: ({ context }) => when(!etchable(context), 'etch-not-etchable'),
  noAcidOnOxide: ({ context }) =>
    when(materialOf(context.facts.material).phosphateSpoils, 'acid-before-primer'),
  /** Phosphate takes the sites that the phosphate primer needs: it must be off first. */
  acidOffOxide: ({ context }) =>
    when(
      materialOf(context.facts.material).phosphateSpoils && context.contaminants.includes('acid'),
      'acid-before-primer',
    ),
  silaneHasSilica: ({ context }) =>
    when(materialOf(context.facts.material).primer !== 'silane', 'silane-on-zirconia'),
  notGlass: ({ context }) => when(etchable(context), 'abrade-glass'),
  // chemistry that would not count
  primerHasOxide: ({ context }) => when(etchable(context), 'primer-on-glass'),
  primerFits: ({ context, event }) => {
    const onGlass = etchable(context) && event.step === 'zirconia-primer';
    const right = event.step === materialOf(context.facts.material).primer;
    // Its own reason is said first, and one override answers for it.
    return when(!right && !onGlass, 'wrong-primer');
  },
  cleansHere: ({ context, event }) =>
    when(
      event.step !== null && cleans(context.facts.material, event.step).length === 0,
      'cleaner-on-glass',
    ),
  acidSuitsCement: ({ context }) =>
    when(
      !planHas(context, 'tooth-etch') && substratesOf(context.facts).includes('dentin'),
      'acid-on-dentin',
    ),
  // laws 1, 4 and 5
  takesOffSilicone: ({ context, event }) => {
    const left = event.step === null ? context.contaminants : leftBy(context, event.step);
    if (!left.includes('fit-paste')) return null;
    return etchable(context) ? 'silicone-needs-etch' : 'silicone-needs-abrasion';
  },
  takesOffAll: ({ context, event }) =>
    when(event.step !== null && leftBy(context, event.step).length > 0, 'first'),
  intaglioConditioned: unconditioned,
  intaglioPrimed: unprimed,
  intaglioFree: ({ context, event }) =>
    when(
      context.dwells.some((dwell) => dwell.step !== event.step && BUSY.includes(dwell.step)),
      'intaglio-busy',
    ),
  cleanerWasOn: ({ context }) => when(context.intaglioAgent?.step !== 'cleaner', 'first'),
  acidWasOn: ({ context }) => when(context.intaglioAgent?.step !== 'acid-clean', 'first'),
  etchWasOn: ({ context }) => when(context.intaglioAgent?.step !== 'porcelain-etch', 'first'),
  coatWasOn: ({ context }) => when(context.now.intaglio !== 'coated', 'first'),
  agentRinsed: ({ context }) => when(agentLies(context), 'not-rinsed'),
  // law 6
  prepReady: prepUnready,
  prepClean: ({ context }) => {
    const { prep } = context.now;
    if (prep === 'covered') return 'provisional-on';
    return when(prep === 'exposed', 'prep-not-clean');
  },
  /** Peroxide leaves oxygen in the tooth: no resin bonds to it that day (trade reference, 2). */
  oxygenGone: ({ context }) =>
    when(
      context.peroxide && peroxideSpoils(context.facts, CEMENT_TABLE[context.plan.cement.class]),
      'peroxide-on-tooth',
    ),
  prepBare: ({ context }) => when(context.now.prep === 'covered', 'provisional-on'),
  toothAcidOff: ({ context }) => when(context.now.prep === 'underAcid', 'first'),
  toothAcidWasOn: ({ context }) => when(context.now.prep !== 'underAcid', 'first'),
  toothEtched: ({ context }) =>
    when(
      planHas(context, 'tooth-etch') &&
        context.now.prep !== 'etched' &&
        // Adhesive past its time is put on again over what was etched for it.
        context.now.prep !== 'ready' &&
        !(context.now.prep === 'coated' && context.prepAgent?.overEtched === true),
      'first',
    ),
  prepRoughened: ({ context }) => when(owed(context, 'prep-roughen'), 'first'),
  // Put on once more, a primer is owed anew until it has been served.
  prepPrimed: ({ context }) =>
    when(
      PREP_PRIMERS.some((step) => owed(context, step) || running(context, step) !== null),
      'first',
    ),
  jointFinished: ({ context }) => when(owed(context, 'joint-finish'), 'first'),
  screwedIn: ({ context }) => when(owed(context, 'screw-in'), 'first'),
  torqued: ({ context }) => when(owed(context, 'torque'), 'first'),
  bondWasOn: ({ context }) =>
    when(context.now.prep !== 'coated' || context.prepAgent?.step !== 'bond', 'first'),
  fieldIsolated: ({ context }) => when(context.now.field === 'open', 'field-open'),
  fieldDry: fieldUndry,
  notMixed: ({ context, event }) =>
    when(context.now.cement !== 'none' && !isSpoilt(context, event.at), 'mixed-already'),
  notLoadedYet: ({ context }) => when(context.now.cement === 'loaded', 'mixed-already'),
  mixed: ({ context }) => when(context.now.cement === 'none', 'not-mixed'),
  loaded: ({ context }) =>
    when(
      context.now.cement !== 'loaded',
      context.now.cement === 'none' ? 'not-mixed' : 'not-loaded',
    ),
  inWorkingTime: ({ context, event }) => when(isSpoilt(context, event.at), 'working-time-over'),
  /** What a step stands on is not past its time (trade reference, 9B). */
  fresh: ({ context, event }) =>
    when(event.step !== null && staleFor(context, event.step, event.at) !== null, 'surface-stale'),
  // law 7
  dwellNotRunning: ({ context, event }) =>
    when(running(context, event.step) !== null, 'dwell-running'),
  dwellRuns: ({ context, event }) =>
    when(
      event.step !== null &&
        (planStep(context, event.step)?.dwell ?? null) !== null &&
        running(context, event.step) === null,
      'no-dwell',
    ),
  ownDwell: ({ context, event }) => when(running(context, event.step) === null, 'no-dwell'),
  dwellServed: ({ context, event }) =>
    when(event.step !== null && shortByS(context, event.step, event.at) > 0, 'dwell-too-short'),
  notInDwell: ({ context, event }) => when(running(context, event.step) !== null, 'dwell-running'),
  someDwellRuns: ({ context }) => when(context.dwells.length === 0, 'no-dwell'),
  holdable: ({ context }) =>
    when(
      !context.dwells.some((dwell) => windowOf(context, dwell.step)?.holdable === true),
      'cannot-hold',
    ),
  someDwellHeld: ({ context }) =>
    when(!context.dwells.some((dwell) => dwell.heldAt !== null), 'no-dwell'),
  // place and order
  notSeated: ({ context }) => when(context.now.where === 'seated', 'seated-already'),
  seated: ({ context }) => when(context.now.where !== 'seated', 'not-seated'),
  inMouth: ({ context }) => when(context.now.where !== 'mouth', 'not-in-mouth'),
  notInMouthYet: ({ context }) => when(context.now.where === 'mouth', 'already-in-mouth'),
  provisionalOff: ({ context }) => when(context.now.prep === 'covered', 'provisional-on'),
  cementFree: ({ context }) => when(context.now.cement === 'loaded', 'mixed-already'),
  heldStill: ({ context }) => when(context.steps.seat !== 'done', 'first'),
  tackedFirst: ({ context }) =>
    when(!['tacked', 'cleared', 'set'].includes(context.now.cement), 'first'),
  flashOff: ({ context }) => when(!['cleared', 'set'].includes(context.now.cement), 'first'),
  cementSet: ({ context }) => when(context.now.cement !== 'set', 'first'),
  notSetYet: ({ context }) => when(context.now.cement === 'set', 'seated-already'),
  cementOn: ({ context }) => when(context.now.cement === 'none', 'not-mixed'),
  planned: ({ context, event }) =>
    when(event.step !== null && planStep(context, event.step) === null, 'not-planned'),
  onShelf: ({ context, event }) =>
    when(event.step !== null && !shelfHas(context.shelf, event.step), 'not-on-shelf'),
  hasBefore: ({ context }) => when(Object.keys(context.steps).length === 0, 'nothing-before'),
} as const satisfies Record<string, Rule>;
export type RuleName = keyof typeof RULES;

function planHas(context: UnitContext, step: StepId): boolean {
  return context.plan.steps.some((one) => one.id === step);
}
