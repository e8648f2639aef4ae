import { STEPS } from '../../contract/index.ts';
import type { CaseFile, Plan, StepId, UnitFacts, UnitPlan } from '../../contract/index.ts';
import { materialOf } from '../../trade/index.ts';
import { addCement, lastPlace } from './cement.ts';
import { cleaningsOf, primesOf } from './condition.ts';
import type { Condition } from './condition.ts';
import { addIntaglio, firstPlace } from './intaglio.ts';
import { stepLabel } from './labels.ts';
import { addPrep, prepPlaces } from './prep.ts';
import { NetBuilder } from './process-net.ts';
import type { Part, ProcessNet, Step } from './process-net.ts';
import type { UnitParts } from './unit-parts.ts';

/** A plan that is not one for seating a restoration, so that no net can be made of it. */
export class NotASeating extends Error {
  override readonly name = 'NotASeating';
}

const NEEDED: readonly StepId[] = ['load', 'seat'];
/** Looks with the crown on the tooth. */
const CHECKS = STEPS.slice(STEPS.indexOf('try-in') + 1, STEPS.indexOf('take-out'));
/** Steps of the case that come after the last unit; the others come before anything in the mouth. */
const AFTER_ALL: readonly StepId[] = ['instructions', 'lots'];

const stepsOf = (plan: UnitPlan): readonly StepId[] => [...new Set(plan.steps.map(({ id }) => id))];

function startOf(parts: Pick<UnitParts, 'cleanings' | 'textured'>): Condition {
  if (parts.cleanings.deep('glove')) return 'filmed';
  return parts.textured ? 'soiled' : 'soiled-bare';
}

/** Steps of the whole case: those before the first try-in, and those after the last unit. */
interface CaseParts {
  readonly builder: NetBuilder;
  readonly checked: readonly Step[];
  readonly opened: readonly Step[];
}

/** The first look decides what everything after it is; the rest of the opening goes in any order. */
function addOpening(builder: NetBuilder, steps: readonly StepId[]): CaseParts {
  const look = steps.includes('case-check');
  const opening = look ? builder.part('case-check', 'open', 'done') : null;
  const checked: readonly Step[] = opening === null ? [] : [[opening, 'done']];
  if (opening !== null) {
    builder.add('case-check', [opening, 'open', 'done']);
    builder.add('case-check', [opening, 'done']);
  }
  const opened: Step[] = [...checked];
  for (const step of steps.filter((one) => one !== 'case-check' && !AFTER_ALL.includes(one))) {
    const part = builder.part(step, 'open', 'done');
    builder.add(step, [part, 'open', 'done'], ...checked);
    builder.add(step, [part, 'done']);
    opened.push([part, 'done']);
  }
  return { builder, checked, opened };
}

function addUnit(
  { builder, checked, opened }: CaseParts,
  plan: UnitPlan,
  facts: UnitFacts,
  { shelf, team }: CaseFile,
): Step {
  const { tooth } = plan;
  const unitSteps = plan.steps.filter(({ scope }) => scope === 'unit');
  const steps = [...new Set(unitSteps.map(({ id }) => id))];
  const missing = NEEDED.find((step) => !steps.includes(step));
  if (missing !== undefined) {
    throw new NotASeating(`The plan of ${plan.toothName} has no step ${missing}.`);
  }
  const label = (step: StepId): string => stepLabel(tooth, step);
  const checks = CHECKS.filter((step) => steps.includes(step));
  const cleanings = cleaningsOf(facts.material, plan);
  const textured = facts.intaglioFromLab === materialOf(facts.material).texture;
  const start = startOf({ cleanings, textured });
  const excused = facts.countsCleanReason !== undefined;
  const arrived: Step[] = [];
  if (steps.includes('disinfect')) {
    const disinfected = builder.part(label('disinfect'), 'open', 'done');
    builder.add(label('disinfect'), [disinfected, 'open', 'done'], ...checked);
    builder.add(label('disinfect'), [disinfected, 'done']);
    arrived.push([disinfected, 'done']);
  }
  const triedIn = steps.includes('try-in') && steps.includes('take-out');
  const last = lastPlace({ steps, plan });
  const named = (name: string, initial: string, final: string): Part =>
    builder.part(`${tooth} ${name}`, initial, final);
  const part = {
    where: named('where', 'bench', 'seated'),
    checks: named('checks', '0', `${triedIn ? checks.length : 0}`),
    intaglio: named('intaglio', firstPlace({ triedIn, excused, start }), 'seated'),
    prep: named('prep', prepPlaces({ steps, triedIn }).first, 'under'),
    wetting: named('wetting', 'calm', 'calm'),
    cement: named('cement', 'none', last),
    arrived,
    opened,
  };
  const parts: UnitParts = {
    builder,
    tooth,
    facts,
    shelf,
    plan,
    team,
    steps,
    label,
    part,
    cleanings,
    depths: cleanings.gentle === null ? [true] : [false, true],
    start,
    textured,
    excused,
    shadePaste: facts.tryInPaste,
    triedIn,
    checks: triedIn ? checks : [],
    primes: primesOf(facts, shelf, plan),
  };
  addChecks(parts);
  addIntaglio(parts);
  addPrep(parts);
  addCement(parts);
  return [part.cement, last];
}

/** Looks with the crown on the tooth: in order, each as often as it takes. */
function addChecks({ builder, part, label, checks }: UnitParts): void {
  const plain = checks.filter((step) => step !== 'fit-paste' && step !== 'shade');
  for (const step of plain) {
    const at = checks.indexOf(step);
    builder.add(label(step), [part.checks, `${at}`, `${at + 1}`], [part.where, 'mouth']);
    for (let k = at + 1; k <= checks.length; k += 1) {
      builder.add(label(step), [part.checks, `${k}`], [part.where, 'mouth']);
    }
  }
}

/** Routing first, then the order of the appointment; what goes wrong comes last. */
function rankOf(label: string | null): number {
  if (label === null) return -1;
  const step = STEPS.findIndex((id) => label === id || label.endsWith(` ${id}`));
  return step < 0 ? STEPS.length : step;
}

/**
 * The net of a case: all that its plan allows, from nothing done to everything done. Units go in
 * parallel; on each, intaglio and prep are two pairs of hands; what lands on a surface leads back.
 * @throws NotASeating when a unit's plan lacks what every seating has.
 */
export function planNet(caseFile: CaseFile, plan: Plan): ProcessNet {
  const builder = new NetBuilder();
  const shared = new Set(
    plan.units.flatMap(({ steps }) =>
      steps.filter(({ scope }) => scope === 'case').map(({ id }) => id),
    ),
  );
  const steps = [...new Set(plan.units.flatMap(stepsOf))].filter((step) => shared.has(step));
  const opening = addOpening(builder, steps);
  const ends = plan.units.map((unit) => {
    const facts = caseFile.units.find(({ tooth }) => tooth === unit.tooth);
    if (facts === undefined) {
      throw new NotASeating(`The plan has tooth ${unit.tooth}, the case has not.`);
    }
    return addUnit(opening, unit, facts, caseFile);
  });
  for (const step of steps.filter((one) => AFTER_ALL.includes(one))) {
    const part = builder.part(step, 'open', 'done');
    builder.add(step, [part, 'open', 'done'], ...ends);
    builder.add(step, [part, 'done']);
  }
  return builder.build(rankOf);
}
