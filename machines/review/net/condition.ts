import type {
  Contaminant,
  Material,
  Shelf,
  StepId,
  UnitFacts,
  UnitPlan,
} from '../../contract/index.ts';
import { cleans, needsPrimer } from '../../plan/index.ts';
import { materialOf } from '../../trade/index.ts';

/**
 * What an intaglio needs before it is dried: nothing, the texture, a cleaning, both, or the
 * conditioning itself because nothing gentler takes off what is on it.
 */
export type Condition = 'ok' | 'bare' | 'soiled' | 'soiled-bare' | 'filmed';

/** A cleaning of the plan and what takes it off again. */
export interface Cleaning {
  readonly step: StepId;
  readonly rinse: StepId | null;
}

/** How a unit's intaglio is cleaned, from its material and what the plan has. */
export interface Cleanings {
  /** The cleaning that leaves the texture alone; null when the plan has none. */
  readonly gentle: Cleaning | null;
  /** The step that cleans and conditions. */
  readonly strong: Cleaning;
  /** Whether only the conditioning takes this off. */
  readonly deep: (contaminant: Contaminant) => boolean;
}

/** Silicone and cement also take the texture. */
const VOIDS: readonly Contaminant[] = ['fit-paste', 'cement'];

export const planned = (plan: UnitPlan, step: StepId): boolean =>
  [...plan.steps, ...plan.spare].some(({ id }) => id === step);

/** The cleanings of a material that this plan has; the conditioning itself is always one. */
export function cleaningsOf(material: Material, plan: UnitPlan): Cleanings {
  const { cleanings, conditioner } = materialOf(material);
  const gentle = cleanings.find(({ step, textures }) => !textures && planned(plan, step)) ?? null;
  const strong = cleanings.find(({ step }) => step === conditioner);
  return {
    gentle: gentle === null ? null : { step: gentle.step, rinse: gentle.rinse },
    strong: { step: conditioner, rinse: strong?.rinse ?? null },
    deep: (contaminant) =>
      VOIDS.includes(contaminant) ||
      gentle === null ||
      !cleans(material, gentle.step).includes(contaminant),
  };
}

/** The condition after something has landed. */
export function soiledTo(condition: Condition, deep: boolean): Condition {
  if (deep || condition === 'filmed') return 'filmed';
  return condition === 'bare' || condition === 'soiled-bare' ? 'soiled-bare' : 'soiled';
}

/** The condition after the gentle cleaning; null where it is of no use. */
export function gentlyCleaned(condition: Condition): Condition | null {
  if (condition === 'soiled' || condition === 'ok') return 'ok';
  return condition === 'soiled-bare' ? 'bare' : null;
}

/** Whether the plan has the surface primed: it must be, it may be, or there is nothing to prime it with. */
export type Primes = 'must' | 'may' | 'no';

export function primesOf(facts: UnitFacts, shelf: Shelf, plan: UnitPlan): Primes {
  if (needsPrimer(facts, shelf)) return 'must';
  return planned(plan, materialOf(facts.material).primer) ? 'may' : 'no';
}

/** The place of the inner surface in which it takes cement. */
export const readyPlace = ({ primes }: { readonly primes: Primes }): string =>
  primes === 'must' ? 'primed' : 'dry';
