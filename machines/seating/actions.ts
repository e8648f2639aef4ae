import type { Contaminant, StepId, UnitPlan } from '../contract/index.ts';
import { cleans, intaglioRoute } from '../plan/index.ts';
import type { IntaglioState } from '../plan/route.ts';
import type { Agent, Facts, Progress, Regions, UnitContext } from './context.ts';
import { running } from './dwell.ts';
import {
  asked,
  CEMENT_STEPS,
  CEMENTING,
  INTAGLIO_AGENTS,
  INTAGLIO_COATS,
  INTAGLIO_STEPS,
  MOMENTS,
  nextStep,
  planStep,
  PREP_COATS,
  PREP_PRIMERS,
  PREP_STEPS,
  RINSE_OF,
} from './steps.ts';

/** What an action changes; merged into the context. */
type Change = Partial<UnitContext>;

/** Keeps the guards' copy of a region equal to the chart. */
export function mark(facts: Facts, now: Partial<Regions>): Change {
  return { now: { ...facts.context.now, ...now } };
}

function setSteps(
  context: UnitContext,
  ids: readonly StepId[],
  to: Progress,
): UnitContext['steps'] {
  return { ...context.steps, ...Object.fromEntries(ids.map((id) => [id, to])) };
}

/** Steps that were done or skipped and now are due once more. */
function again(context: UnitContext, ids: readonly StepId[]): UnitContext['steps'] {
  const had = ids.filter((id) => context.steps[id] !== undefined);
  return setSteps(context, had, 'again');
}

/** Those of `ids` not in `route` are no longer asked for: forgotten, so that they don't count as done. */
function forget(steps: UnitContext['steps'], ids: readonly StepId[]): UnitContext['steps'] {
  return Object.fromEntries(Object.entries(steps).filter(([id]) => !ids.some((one) => one === id)));
}

/** Lays the intaglio's steps out anew from where it stands; steps that were done and are asked for are due again. */
function reroute(
  context: UnitContext,
  stands: IntaglioState,
): Pick<UnitContext, 'routes' | 'steps'> {
  const intaglio = intaglioRoute(context.facts, context.shelf, stands);
  const kept = forget(
    context.steps,
    context.routes.intaglio.filter((id) => !intaglio.includes(id)),
  );
  return {
    routes: { ...context.routes, intaglio },
    steps: again({ ...context, steps: kept }, intaglio),
  };
}

/** Whether cleaner or acid lies on the intaglio, not rinsed off. */
const underAgent = ({ intaglioAgent }: UnitContext): boolean =>
  intaglioAgent !== null && INTAGLIO_AGENTS.includes(intaglioAgent.step);

/**
 * The contaminants after one more has landed; a texture under silicone or cement is lost. An agent
 * that lies on the surface goes on lying there (law 2), but no longer counts.
 */
export function soilIntaglio({ context }: Facts, contaminant: Contaminant): Change {
  const contaminants = context.contaminants.includes(contaminant)
    ? context.contaminants
    : [...context.contaminants, contaminant];
  const voids = contaminant === 'fit-paste' || contaminant === 'cement';
  const texture = voids ? 'none' : context.texture;
  const { intaglioAgent } = context;
  const lies = underAgent(context) && intaglioAgent !== null;
  const off = lies ? RINSE_OF[intaglioAgent.step] : undefined;
  // An agent that was forced on has no step of the plan to point at; its refusals name the rinse.
  const rinse = off !== undefined && planStep(context, off) !== null ? off : undefined;
  const anew = reroute(context, { contaminants, texture, primed: false });
  const lostCement = context.now.cement === 'loaded' ? CEMENT_STEPS : [];
  const due = rinse === undefined ? lostCement : [...lostCement, rinse];
  return {
    contaminants,
    texture,
    excused: false,
    intaglioAgent: lies ? { ...intaglioAgent, served: false } : null,
    dwells: context.dwells.filter((dwell) => !INTAGLIO_STEPS.includes(dwell.step)),
    routes: anew.routes,
    steps: again({ ...context, steps: anew.steps }, due),
    mixedAt: lostCement.length > 0 ? null : context.mixedAt,
    focus: rinse ?? null,
  };
}

/** A try-in: both surfaces meet saliva, unless the case says why the first one does not count. */
export function tryIn(facts: Facts): Change {
  const { context } = facts;
  const intaglio = context.excused ? countClean(facts) : soilIntaglio(facts, 'saliva');
  const base = { ...context, ...intaglio };
  const both = { ...base, ...soilPrep({ ...facts, context: base }) };
  return {
    ...intaglio,
    tryIns: context.tryIns + 1,
    excused: false,
    prepAgent: both.prepAgent,
    dwells: both.dwells.filter((dwell) => !INTAGLIO_STEPS.includes(dwell.step)),
    steps: again(both, ['take-out']),
    focus: null,
  };
}

export function soilPrep({ context, event }: Facts): Change {
  const peroxide = event.type === 'soil.prep' && event.contaminant === 'peroxide';
  return {
    peroxide: context.peroxide || peroxide,
    prepAgent: null,
    dwells: context.dwells.filter((dwell) => !PREP_STEPS.includes(dwell.step)),
    steps: again(context, PREP_STEPS),
    focus: null,
  };
}

/** The field is no longer shown to be dry; under a seated crown that asks for nothing more. */
export function soilField({ context }: Facts): Change {
  if (context.now.where === 'seated') return {};
  return {
    dwells: context.dwells.filter((dwell) => dwell.step !== 'dry-check'),
    steps: again(context, ['dry-check']),
    focus: null,
  };
}

/** Work on the intaglio begins once more: what was dried and primed has to be again. */
export function reworked({ context }: Facts): Change {
  return { steps: again(context, ['intaglio-dry', ...INTAGLIO_COATS, 'primer-dry']) };
}

/** What takes an agent off is due, also where no plan had it on. */
function rinseDue(context: UnitContext, agent: StepId): UnitContext['steps'] {
  const rinse = RINSE_OF[agent];
  if (rinse === undefined || planStep(context, rinse) === null) return context.steps;
  const open = context.routes.intaglio.includes(rinse) && context.steps[rinse] === undefined;
  return open ? context.steps : setSteps(context, [rinse], 'again');
}

/**
 * The prep is cleaned or roughened once more: what was put on it is gone, and due again. So is a
 * cleaning that begins anew, until it ends: what it works with lies there.
 */
export function prepReworked({ context, event }: Facts): Change {
  const dwells = context.dwells.filter(({ step }) => !PREP_COATS.includes(step));
  const begun = event.type.startsWith('begin.') && event.step !== null ? [event.step] : [];
  return { prepAgent: null, dwells, steps: again(context, [...PREP_COATS, ...begun]) };
}

/** A primer that the plan has for one retainer leaves the etch of another standing. */
function keepsEtch({ plan, now, prepAgent }: UnitContext, step: StepId): boolean {
  const etched = now.prep === 'etched' || (now.prep === 'coated' && prepAgent?.overEtched === true);
  return etched && PREP_PRIMERS.includes(step) && plan.steps.some(({ id }) => id === step);
}

/** An agent goes on: whatever the surface was, it is under this agent until rinsed or thinned. */
export function agentOn({ context, event }: Facts, surface: 'intaglio' | 'prep'): Change {
  if (event.step === null) return {};
  const agent: Agent = { step: event.step, served: false };
  if (surface === 'prep') {
    return { prepAgent: keepsEtch(context, event.step) ? { ...agent, overEtched: true } : agent };
  }
  return { intaglioAgent: agent, steps: rinseDue(context, event.step) };
}

/** The agent's dwell was served in full: only then does it count (law 7). */
export function agentServed({ context, event }: Facts, surface: 'intaglio' | 'prep'): Change {
  const agent = surface === 'intaglio' ? context.intaglioAgent : context.prepAgent;
  if (agent === null || agent.step !== event.step) return {};
  // A step that was never planned has no time to serve: an override lets it through, and earns nothing.
  if (running(context, agent.step) === null) return {};
  const served: Agent = { ...agent, served: true };
  return surface === 'intaglio' ? { intaglioAgent: served } : { prepAgent: served };
}

/** Rinsed off: a served agent takes with it what its material table says, and leaves its texture. */
export function agentOff({ context }: Facts): Change {
  const agent = context.intaglioAgent;
  if (agent === null || !agent.served) return { intaglioAgent: null };
  return { ...cleaned(context, agent.step), intaglioAgent: null };
}

function cleaned(context: UnitContext, step: StepId): Change {
  const off = cleans(context.facts.material, step);
  const contaminants = context.contaminants.filter((one) => !off.includes(one));
  const texture =
    step === 'porcelain-etch' ? 'etched' : step === 'abrade' ? 'abraded' : context.texture;
  return { contaminants, texture };
}

export function abraded({ context }: Facts): Change {
  return cleaned(context, 'abrade');
}

/** Water takes a water-soluble paste off; what remains of it counts as saliva. */
export function rinsedWithWater({ context }: Facts): Change {
  if (!context.contaminants.includes('try-in-paste')) return {};
  const rest = context.contaminants.filter((one) => one !== 'try-in-paste' && one !== 'saliva');
  return { contaminants: [...rest, 'saliva'] };
}

/** Somebody says it is clean: it still has to be dried, and primed if it is to be. */
export function countClean({ context }: Facts): Change {
  const { texture } = context;
  const stands = { contaminants: [], texture, primed: false, wet: true };
  return { contaminants: [], ...reroute(context, stands) };
}

/** Cement, bond and primer are given up: everything from the cleaning on is due again. */
export function startOver(facts: Facts): Change {
  const { context } = facts;
  const soiled = soilIntaglio(facts, 'cement');
  const base = { ...context, ...soiled };
  return {
    ...soiled,
    ...soilPrep({ ...facts, context: base }),
    steps: again(base, [...PREP_STEPS, ...CEMENTING]),
    dwells: [],
    mixedAt: null,
  };
}

/** Starts the step's dwell, if it has one; the rest of the work keeps its own. */
export function startDwell({ context, event }: Facts): Change {
  const { step } = event;
  const window = step === null ? null : (planStep(context, step)?.dwell ?? null);
  if (step === null || window === null) return {};
  const { mixedAt } = context;
  const creditMs = window.from === 'mix' && mixedAt !== null ? event.at - mixedAt : 0;
  const dwell = { step, startedAt: event.at, creditMs, heldMs: 0, heldAt: null, addedS: 0 };
  return { dwells: [...context.dwells.filter((one) => one.step !== step), dwell] };
}

export function endDwell({ context, event }: Facts): Change {
  return { dwells: context.dwells.filter((dwell) => dwell.step !== event.step) };
}

export function holdDwells({ context, event }: Facts): Change {
  const canHold = (step: StepId): boolean => planStep(context, step)?.dwell?.holdable === true;
  return {
    dwells: context.dwells.map((dwell) =>
      dwell.heldAt === null && canHold(dwell.step) ? { ...dwell, heldAt: event.at } : dwell,
    ),
  };
}

export function releaseDwells({ context, event }: Facts): Change {
  return {
    dwells: context.dwells.map((dwell) =>
      dwell.heldAt === null
        ? dwell
        : { ...dwell, heldMs: dwell.heldMs + (event.at - dwell.heldAt), heldAt: null },
    ),
  };
}

/** Adds seconds to the target of the dwell that was started last. */
export function addToDwell({ context, event }: Facts): Change {
  if (event.type !== 'add') return {};
  const last = context.dwells.length - 1;
  return {
    dwells: context.dwells.map((dwell, index) =>
      index === last ? { ...dwell, addedS: dwell.addedS + event.seconds } : dwell,
    ),
  };
}

/** Moments are done when they begin; every other step when it is finished, also if short. */
export function stepDone({ context, event }: Facts): Change {
  const { step } = event;
  if (step === null) return {};
  const done = event.type.startsWith('begin.') ? MOMENTS.includes(step) : true;
  if (!done) return { focus: context.focus === step ? null : context.focus };
  const skipped = event.type.startsWith('skip.');
  // A primer cut short has bound nothing: it is due again, or left out with a reason of its own.
  const wasted = event.type.startsWith('short.') && PREP_PRIMERS.includes(step);
  const steps = setSteps(context, [step], skipped ? 'skipped' : wasted ? 'again' : 'done');
  return { steps, focus: null };
}

/** The pointer goes to the step before the one it is at; doing that step again is as guarded as ever. */
export function goBack({ context }: Facts): Change {
  const order = asked(context);
  const here = nextStep(context);
  const index = here === null ? order.length : order.indexOf(here);
  return { focus: order[Math.max(0, index - 1)] ?? null };
}

/** Taken. Peroxide that was overridden once is not asked about at every step after it. */
export function accepted({ context, event }: Facts): Change {
  const overridden = event.forced.includes('peroxide-on-tooth');
  return {
    accepted: context.accepted + 1,
    ...(overridden ? { peroxide: false } : {}),
  };
}

/** A finding that makes steps due again: a crown that won't go down, a high bite, bleeding. */
export function noteFinding({ context, event }: Facts): Change {
  if (event.type !== 'find') return {};
  return { findings: [...context.findings, event.finding] };
}

/** The planned steps of one surface, the route expected at the start. */
export function plannedOf(plan: UnitPlan, surface: 'intaglio' | 'prep'): readonly StepId[] {
  const ids = surface === 'intaglio' ? INTAGLIO_STEPS : PREP_STEPS;
  return plan.steps.map((step) => step.id).filter((id) => ids.includes(id));
}
