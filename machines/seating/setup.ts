import { and, assign, setup } from 'xstate';
import type { Contaminant, Shelf, UnitFacts, UnitPlan } from '../contract/index.ts';
import * as act from './actions.ts';
import type { Facts, Regions, UnitContext, UnitEvent, UnitEventType } from './context.ts';
import { running } from './dwell.ts';
import { madeAfter } from './fresh.ts';
import { gate, refusalOf } from './gates.ts';
import { phantom } from './phantom.ts';
import { RULES, type Rule, type RuleName } from './rules.ts';
import { CURES, nextStep, planStep, uncleaned } from './steps.ts';
import { materialOf } from '../trade/index.ts';

/** What a unit's machine is started with. */
export interface UnitInput {
  readonly facts: UnitFacts;
  readonly shelf: Shelf;
  readonly plan: UnitPlan;
}

/** Guards that choose where an accepted event leads. */
type Chooser =
  | 'readyForPrimer'
  | 'nothingLeft'
  | 'intaglioServed'
  | 'prepServed'
  | 'lightSuffices'
  | 'othersCured'
  | 'shadePaste'
  | 'rightPrimer'
  | 'othersCleaned'
  | 'selfEtch'
  | 'prepUncoated'
  | 'ownPrimer'
  | 'bondOn'
  | 'inDwell'
  | 'inPlan';

type Guard = (facts: Facts) => boolean;

/** A rule as a guard: open when nothing stands in the way, or what does was overridden. */
function guardOf(rule: Rule): Guard {
  return (facts) => {
    const why = rule(facts);
    return why === null || facts.event.forced.includes(why);
  };
}

function allGuards(): Record<RuleName, Guard> {
  const pairs = Object.entries(RULES).map(([name, rule]) => [name, guardOf(rule)] as const);
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- fromEntries widens the keys to string; they are exactly those of RULES
  return Object.fromEntries(pairs) as Record<RuleName, Guard>;
}

const contaminantOf = (event: UnitEvent): Contaminant =>
  'contaminant' in event ? event.contaminant : 'saliva';

/** Texture proper to the material is there and nothing is left on the surface. */
const readyForPrimer: Guard = ({ context }) =>
  context.contaminants.length === 0 &&
  context.texture === materialOf(context.facts.material).texture;

/** The unit machine's words: every guard and action by name, none in the charts. */
export const unitSetup = setup({
  types: phantom<{ context: UnitContext; events: UnitEvent; input: UnitInput }>(),
  guards: {
    ...allGuards(),
    /** Every rule of the event's gate at once. */
    granted: (facts) => refusalOf(facts) === null,
    readyForPrimer,
    nothingLeft: ({ context }) => context.contaminants.length === 0,
    intaglioServed: ({ context }) => context.intaglioAgent?.served === true,
    prepServed: ({ context }) => context.prepAgent?.served === true,
    /** A primer that does not bind this ceramic is on it, and counts for nothing. */
    rightPrimer: ({ context }) =>
      context.intaglioAgent?.step === materialOf(context.facts.material).primer,
    /** Retainers on teeth and on abutments are cleaned by different steps: the prep is clean after both. */
    othersCleaned: ({ context, event }) => uncleaned(context, event.step).length === 0,
    inDwell: ({ context, event }) => running(context, event.step) !== null,
    inPlan: ({ context, event }) => event.step !== null && planStep(context, event.step) !== null,
    selfEtch: ({ context }) => !context.plan.steps.some(({ id }) => id === 'tooth-etch'),
    /** No primer of the prep's own is planned: dry is all it has to be. */
    prepUncoated: ({ context }) =>
      !context.plan.steps.some(({ id }) => id === 'core-primer' || id === 'abutment-primer'),
    ownPrimer: ({ context }) =>
      context.prepAgent?.step === 'core-primer' || context.prepAgent?.step === 'abutment-primer',
    /** What lies on the prep is adhesive, not the primer under it. */
    bondOn: ({ context }) => context.prepAgent?.step === 'bond',
    shadePaste: ({ context }) => context.facts.tryInPaste,
    /** A titanium base is never under a provisional: the plan has none to take off. */
    provisionalOn: ({ context }) => context.plan.steps.some(({ id }) => id === 'provisional-off'),
    dwellsLeft: ({ context }) => context.dwells.length > 0,
    allDone: ({ context }) => nextStep(context) === null,
    lightSuffices: ({ context }) => !context.plan.cement.waitForSet,
    othersCured: ({ context, event }) =>
      CURES.every((id) => id === event.step || context.steps[id] === 'done'),
  },
  actions: {
    mark: assign((facts, now: Partial<Regions>) => act.mark(facts, now)),
    soilIntaglio: assign((facts) => act.soilIntaglio(facts, contaminantOf(facts.event))),
    siliconeIn: assign((facts) => act.soilIntaglio(facts, 'fit-paste')),
    shadePasteIn: assign((facts) => act.soilIntaglio(facts, 'try-in-paste')),
    tryIn: assign((facts) => act.tryIn(facts)),
    soilPrep: assign((facts) => act.soilPrep(facts)),
    reworked: assign((facts) => act.reworked(facts)),
    prepReworked: assign((facts) => act.prepReworked(facts)),
    soilField: assign((facts) => act.soilField(facts)),
    intaglioAgentOn: assign((facts) => act.agentOn(facts, 'intaglio')),
    intaglioAgentServed: assign((facts) => act.agentServed(facts, 'intaglio')),
    intaglioAgentOff: assign((facts) => act.agentOff(facts)),
    intaglioAgentForgotten: assign({ intaglioAgent: null }),
    prepAgentOn: assign((facts) => act.agentOn(facts, 'prep')),
    prepAgentServed: assign((facts) => act.agentServed(facts, 'prep')),
    prepAgentForgotten: assign({ prepAgent: null }),
    abraded: assign((facts) => act.abraded(facts)),
    rinsedWithWater: assign((facts) => act.rinsedWithWater(facts)),
    countClean: assign((facts) => act.countClean(facts)),
    startOver: assign((facts) => act.startOver(facts)),
    mixed: assign({ mixedAt: ({ event }) => event.at }),
    startDwell: assign((facts) => act.startDwell(facts)),
    endDwell: assign((facts) => act.endDwell(facts)),
    holdDwells: assign((facts) => act.holdDwells(facts)),
    releaseDwells: assign((facts) => act.releaseDwells(facts)),
    addToDwell: assign((facts) => act.addToDwell(facts)),
    stepDone: assign((facts) => act.stepDone(facts)),
    goBack: assign((facts) => act.goBack(facts)),
    goForward: assign({ focus: null }),
    noteFinding: assign((facts) => act.noteFinding(facts)),
    keepTimes: assign({ made: (facts) => madeAfter(facts) }),
    accept: assign((facts) => act.accepted(facts)),
  },
});

/** The gate of an event as a guard of the chart: all its rules by name, and any that choose the target. */
export function gated(type: UnitEventType, ...also: readonly Chooser[]) {
  return and<UnitContext, UnitEvent, (RuleName | Chooser)[]>([...gate(type), ...also]);
}

/** The context a unit starts with: on the bench, handled, nothing done. */
export function fresh({ facts, shelf, plan }: UnitInput): UnitContext {
  const texture = facts.intaglioFromLab === 'untreated' ? 'none' : facts.intaglioFromLab;
  const fits = texture === materialOf(facts.material).texture;
  return {
    facts,
    shelf,
    plan,
    now: { where: 'bench', intaglio: 'soiled', prep: 'exposed', field: 'open', cement: 'none' },
    contaminants: ['glove'],
    texture: fits ? texture : 'none',
    intaglioAgent: null,
    prepAgent: null,
    peroxide: false,
    tryIns: 0,
    excused: facts.countsCleanReason !== undefined,
    dwells: [],
    mixedAt: null,
    made: [],
    steps: {},
    routes: {
      intaglio: act.plannedOf(plan, 'intaglio'),
      prep: act.plannedOf(plan, 'prep'),
    },
    focus: null,
    findings: [],
    accepted: 0,
  };
}
