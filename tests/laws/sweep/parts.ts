/**
 * The parts of the machine that a sweep goes through, and which units are the same to them.
 *
 * The inside, the tooth side and the cement know nothing of each other and meet in the gates of five
 * events (try-in, mix, load, seat, start over), each a list of rules of which every one reads one of
 * them only ({@link crossings} checks it). So a standing of the whole is a standing of each part, an event is
 * accepted where each part accepts it, and a law that asks for both surfaces is broken where it is
 * broken for one. Each part is gone through in full with the other surfaces made ready by real events,
 * which is where the gates let most through.
 */
import type { CaseFile, Contaminant, StepId } from '../../../machines/contract/index.ts';
import { CONTAMINANTS, STEPS } from '../../../machines/contract/index.ts';
import { initialState } from '../../../machines/conduct/index.ts';
import { cleans, intaglioRoute, makePlan, needsPrimer } from '../../../machines/plan/index.ts';
import { planStep, type UnitContext } from '../../../machines/seating/index.ts';
import { peroxideSpoils } from '../../../machines/plan/seats.ts';
import { CEMENT_TABLE, materialOf } from '../../../machines/trade/index.ts';
import { primerFor, takesOff, texturing } from '../materials.ts';
import type { Standing } from './standing.ts';

const between = (first: StepId, last: StepId): readonly StepId[] =>
  STEPS.slice(STEPS.indexOf(first), STEPS.indexOf(last) + 1);

export const INSIDE = between('intaglio-rinse', 'primer-dry');
export const TOOTH: readonly StepId[] = [
  ...(['provisional-off', 'prep-clean', 'abutment-in', 'isolate'] as const),
  ...between('pumice', 'prep-dry').filter((step) => step !== 'isolate'),
];
const PLACE: readonly StepId[] = ['try-in', 'take-out'];
const TREATMENTS: readonly StepId[] = ['cleaner', 'acid-clean', 'porcelain-etch', 'abrade'];

/** The name of a part. */
export type PartName = 'inside' | 'tooth side' | 'cement';

export const STEPS_OF: Readonly<Record<PartName, readonly StepId[]>> = {
  inside: [...PLACE, 'fit-paste', 'shade', ...INSIDE, 'mix', 'load', 'seat'],
  'tooth side': [...PLACE, ...TOOTH, 'isolation-out', 'mix', 'seat'],
  cement: [...PLACE, ...between('mix', 'instructions').filter((step) => step !== 'instructions')],
};
export const OTHERS_OF: Readonly<Record<PartName, readonly (readonly StepId[])[]>> = {
  inside: [TOOTH],
  'tooth side': [INSIDE],
  cement: [INSIDE, TOOTH],
};

/** What a contaminant is to this unit, in the machine's tables and in the second statement's: of two alike one will do. */
export function classOf({ facts, shelf }: UnitContext, what: Contaminant): string {
  const { material } = facts;
  const route = intaglioRoute(facts, shelf, {
    contaminants: [what],
    texture: 'none',
    primed: false,
  });
  return JSON.stringify([
    TREATMENTS.map((step) => cleans(material, step).includes(what)),
    TREATMENTS.map((step) => takesOff(facts, step, what)),
    // Silicone and old cement void the texture; silicone is refused by its own name, acid on an oxide too.
    what === 'fit-paste' || what === 'cement',
    what === 'fit-paste',
    what === 'acid' && materialOf(material).phosphateSpoils,
    what === 'try-in-paste',
    route,
  ]);
}

/** One of each class of contaminant. */
export function contaminantsOf(context: UnitContext): readonly Contaminant[] {
  const classes = new Map(CONTAMINANTS.map((what) => [classOf(context, what), what]));
  return [...classes.values()];
}

function stepPrint(context: UnitContext, step: StepId): unknown {
  const planned = context.plan.steps.some(({ id }) => id === step);
  const found = planStep(context, step);
  if (found === null) return null;
  const { dwell, goodFor } = found;
  // Seconds are short, right or past to a sweep, however many they are.
  return [planned, dwell === null ? null : [dwell.minS > 0, dwell.from], goodFor?.before ?? null];
}

/** All that a part reads of a unit: two units alike in it have the same standings in that part. */
export function printOf(part: PartName, context: UnitContext): string {
  const { facts, shelf, plan } = context;
  const steps = STEPS_OF[part].map((step) => stepPrint(context, step));
  const material = materialOf(facts.material);
  const { etchable, texture, conditioner, primer, phosphateSpoils } = material;
  const inside = [
    [etchable, texture, conditioner, primer, phosphateSpoils, needsPrimer(facts, shelf)],
    [primerFor(facts, shelf), texturing(facts)],
    CONTAMINANTS.map((what) => classOf(context, what)),
    // No peroxide lands in this part: whether it would spoil the cement is all one to it.
    [facts.tryInPaste, facts.intaglioFromLab !== 'untreated', facts.countsCleanReason],
  ];
  const on = [facts.substrate, ...(facts.bridge?.retainers ?? []).map((one) => one.substrate)];
  const tooth = [
    facts.provisionalCement === 'none',
    on.includes('dentin'),
    peroxideSpoils(facts, CEMENT_TABLE[plan.cement.class]),
  ];
  const cement = [
    peroxideSpoils(facts, CEMENT_TABLE[plan.cement.class]),
    plan.cement.waitForSet,
    plan.steps.some(({ id }) => id === 'isolate'),
  ];
  const own = { inside, 'tooth side': [tooth, cement], cement };
  return JSON.stringify([part, steps, own[part]]);
}

/** The unit of a case as it arrives: nothing done. */
export function arrival(caseFile: CaseFile): Standing {
  const state = initialState(caseFile, makePlan(caseFile));
  const [tooth = ''] = Object.keys(state.units);
  const snapshot = state.units[tooth];
  if (snapshot === undefined) throw new Error('A case has a unit');
  return { snapshot, acts: [] };
}
