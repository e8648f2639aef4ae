import type { CauseId, RefusalId, StepId } from '../contract/index.ts';
import { NEVER_OVERRIDDEN, UNSUITED } from '../contract/index.ts';
import { substratesOf } from '../plan/seats.ts';
import { materialOf } from '../trade/index.ts';
import { CEMENT_TABLE } from '../trade/cements.ts';
import type { CementTable } from '../trade/cements.ts';
import { SUBSTRATE_TABLE } from '../trade/substrates.ts';
import type { Substrate } from '../trade/substrates.ts';
import type { Facts, UnitContext } from './context.ts';
import { standing } from './gates.ts';
import type { RuleName } from './rules.ts';
import { CURES, INTAGLIO_AGENTS, INTAGLIO_COATS } from './steps.ts';

/** Widened, so that any refusal may be looked for in it. */
const UNSUITED_AGENT: readonly RefusalId[] = UNSUITED;

/** Why this agent is not for this material, by its table; undefined where the table has nothing against it. */
function chemistry({ facts }: UnitContext, step: StepId | null): CauseId | undefined {
  const { forbidden, monomer } = materialOf(facts.material);
  const own = forbidden.find((each) => each.step === step)?.cause;
  // 10-MDP binds base metal: there it is the metal primer, and planned under that name.
  if (own === undefined && step === 'zirconia-primer' && monomer === 'phosphate') {
    return 'phosphate-primer-is-metal-primer';
  }
  return own;
}

/** Which condition is not met, where "something comes first" would leave one guessing. */
const UNMET: Partial<Readonly<Record<RuleName, CauseId>>> = {
  takesOffAll: 'leaves-some-on',
  cleanerWasOn: 'nothing-to-rinse',
  acidWasOn: 'nothing-to-rinse',
  etchWasOn: 'nothing-to-rinse',
  toothAcidWasOn: 'nothing-to-rinse',
  coatWasOn: 'no-primer-on',
  toothAcidOff: 'tooth-acid-on',
  toothEtched: 'tooth-not-etched',
  prepRoughened: 'not-roughened',
  prepPrimed: 'own-primer-missing',
  jointFinished: 'joint-rough',
  screwedIn: 'not-screwed-in',
  torqued: 'not-torqued',
  bondWasOn: 'no-bond-on',
  heldStill: 'not-held',
  tackedFirst: 'cement-soft',
  flashOff: 'flash-on',
  cementSet: 'cement-not-set',
};

const cementOf = ({ plan }: UnitContext): CementTable => CEMENT_TABLE[plan.cement.class];
/** A cement that bonds by itself, or not at all, has no use for acid on the tooth. */
const noEtch = (context: UnitContext): CauseId | undefined => {
  if (seats(context).every(({ etch }) => etch === null)) return 'nothing-to-etch';
  return cementOf(context).moisture === 'bonded' ? 'self-etch' : undefined;
};
const seats = ({ facts }: UnitContext): Substrate[] =>
  substratesOf(facts).map((id) => SUBSTRATE_TABLE[id]);
const noScrew = ({ plan }: UnitContext): CauseId =>
  plan.kind === 'implant-crown' ? 'no-base' : 'no-screw';

/** Why a light step is in no plan of this unit. */
function unlit(context: UnitContext): CauseId | undefined {
  if (!cementOf(context).lightCured) return 'not-lit';
  if (context.shelf.light === null) return 'no-light';
  return materialOf(context.facts.material).attenuation === null ? 'light-blocked' : undefined;
}

/** Why a step is not in this unit's plan; undefined where there is no more to say than that. */
function unplanned(context: UnitContext, step: StepId | null): CauseId | undefined {
  const { takesPrimer, moisture } = cementOf(context);
  const unprimed: CauseId = takesPrimer ? 'cement-primes' : 'cement-takes-no-primer';
  if (step === null) return undefined;
  if (INTAGLIO_COATS.includes(step)) {
    return step === materialOf(context.facts.material).primer ? unprimed : chemistry(context, step);
  }
  if (step === 'primer-dry') return unprimed;
  if (step === 'tack' || CURES.includes(step)) return unlit(context);
  const abutment = seats(context).every(({ of }) => of === 'abutment');
  switch (step) {
    case 'core-primer':
    case 'abutment-primer':
      return seats(context).some(({ primer }) => primer === step) ? unprimed : undefined;
    case 'bond':
    case 'bond-thin':
      if (abutment) return 'no-bond-on-abutment';
      return moisture === 'bonded' ? undefined : 'no-bond-under-cement';
    case 'tooth-etch':
    case 'tooth-etch-rinse':
      return noEtch(context) ?? 'etch-for-nothing';
    case 'base-abrade':
    case 'joint-finish':
    case 'screw-in':
    case 'torque':
    case 'access-close':
      return noScrew(context);
    default:
      return undefined;
  }
}

/** Why a step may not be done while the restoration is in the mouth; undefined for what burns. */
function inMouth(step: StepId | null): CauseId | undefined {
  if (step === null) return 'inside-outside-only';
  if (INTAGLIO_AGENTS.includes(step)) return undefined;
  if (step === 'abrade' || step === 'base-abrade') return 'dust-in-mouth';
  const here: readonly StepId[] = ['mix', 'load', 'seat', 'prep-roughen'];
  return here.includes(step) ? 'still-in-mouth' : 'inside-outside-only';
}

/** What stands behind a refusal, from the tables and from the condition that is not met (law 9). */
export function causeOf({ context, event }: Facts, id: RefusalId): CauseId | undefined {
  const { step } = event;
  if (UNSUITED_AGENT.includes(id)) return chemistry(context, step);
  switch (id) {
    case 'acid-before-primer':
      return chemistry(context, 'acid-clean');
    case 'in-mouth':
      return inMouth(step);
    case 'acid-on-dentin':
      if (cementOf(context).moisture === 'moist') return undefined;
      return noEtch(context) ?? 'etch-for-nothing';
    case 'first': {
      const rule = standing({ context, event });
      return rule === null ? undefined : UNMET[rule];
    }
    case 'not-planned':
      return unplanned(context, step);
    default:
      return undefined;
  }
}

/** Why there is nothing to override in a refusal: it does harm, has a way of its own, or can't be done. */
export const whyFinal = (id: RefusalId): CauseId => {
  const never: readonly RefusalId[] = NEVER_OVERRIDDEN;
  if (never.includes(id)) return 'harms';
  return id === 'dwell-too-short' ? 'only-short' : 'cannot-be-done';
};
