import { STEPS } from '../contract/index.ts';
import type { Cement, CementClass, StepId, UnitFacts } from '../contract/index.ts';
import { CEMENT_TABLE } from '../trade/cements.ts';
import type { CementTable } from '../trade/cements.ts';
import { SUBSTRATE_TABLE } from '../trade/substrates.ts';
import type { Substrate } from '../trade/substrates.ts';
import { substratesOf } from './seats.ts';
import type { Seated } from './seats.ts';
import type { Means } from './shelf.ts';

/** What the prep's route asks of a unit. */
export type PrepUnit = Seated & { readonly bonding?: UnitFacts['bonding'] | undefined };
type Luting = Pick<Cement, 'class'> & Partial<Pick<Cement, 'carriesPhosphate'>>;

/** Whether the substrate's own primer goes under this cement. */
const primed = (substrate: Substrate, cement: Luting): boolean => {
  if (substrate.primer === null || !CEMENT_TABLE[cement.class].takesPrimer) return false;
  return !(substrate.phosphateCementPrimes && cement.carriesPhosphate === true);
};

/** Without phosphoric acid on the shelf a dentin prep is bonded in self-etch mode. */
const etched = (unit: PrepUnit, shelf: Means): boolean => {
  const { etch } = SUBSTRATE_TABLE[unit.substrate];
  if (etch === null || unit.bonding === 'self-etch') return false;
  return !(unit.substrate === 'dentin' && shelf.phosphoricAcid === null);
};

/** The adhesive, or what stands in for it, once the prep is clean and the field dry. */
const conditioning = (unit: PrepUnit, shelf: Means, cement: Luting): StepId[] => {
  const substrate = SUBSTRATE_TABLE[unit.substrate];
  const table: CementTable = CEMENT_TABLE[cement.class];
  const primer = primed(substrate, cement) && substrate.primer !== null ? [substrate.primer] : [];
  if (substrate.of === 'abutment') return [...primer, 'prep-dry'];
  if (table.moisture === 'bonded') {
    const acid: StepId[] = etched(unit, shelf) ? ['tooth-etch', 'tooth-etch-rinse'] : [];
    return [...acid, ...primer, 'bond', 'bond-thin'];
  }
  const metal = substrate.primer === 'core-primer';
  if (metal || table.moisture === 'dry' || unit.substrate === 'sealed-dentin') {
    return [...primer, 'prep-dry'];
  }
  return ['prep-moist'];
};

/** What a route ends with. */
export const CLOSING = ['bond-thin', 'prep-dry', 'prep-moist'] as const satisfies readonly StepId[];

/**
 * The steps that make one substrate ready for this cement, in order, from an open field on. A titanium
 * base is made ready on the bench: it is neither isolated nor watched.
 */
export const routeOn = (unit: PrepUnit, shelf: Means, luting: Luting): StepId[] => {
  const substrate = SUBSTRATE_TABLE[unit.substrate];
  const then = conditioning(unit, shelf, luting);
  if (unit.substrate === 'titanium-base') return ['base-abrade', ...then];
  const bonded = CEMENT_TABLE[luting.class].takesPrimer;
  // An acid-base cement sits on a core as it is; only sealed dentin is always opened up.
  const rough = substrate.roughen && (bonded || unit.substrate === 'sealed-dentin');
  const cleaned: StepId = substrate.of === 'abutment' ? 'abutment-clean' : 'pumice';
  return ['isolate', cleaned, ...(rough ? (['prep-roughen'] as const) : []), 'dry-check', ...then];
};

/**
 * The steps that make the prep ready for this cement. Where the retainers of a bridge sit on different
 * substrates: what any of them needs, in the order of the appointment. One step closes it for all of
 * them, because from there on none may wait: the air that thins an adhesive also dries a primer.
 */
export const prepRoute = (unit: PrepUnit, shelf: Means, cement: CementClass | Luting): StepId[] => {
  const luting = typeof cement === 'string' ? { class: cement } : cement;
  const routes = substratesOf(unit).map((substrate) =>
    routeOn({ substrate, bonding: unit.bonding }, shelf, luting),
  );
  const [first = [], ...others] = routes;
  if (others.length === 0) return first;
  const wanted = new Set(routes.flat());
  const last = CLOSING.find((step) => wanted.has(step));
  const closes = (step: StepId): boolean => CLOSING.some((each) => each === step);
  return STEPS.filter((step) => wanted.has(step) && (step === last || !closes(step)));
};
