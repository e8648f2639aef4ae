import type { Contaminant, Shelf, StepId, UnitFacts } from '../contract/index.ts';
import { CEMENT_TABLE } from '../trade/cements.ts';
import type { Cleaning } from '../trade/material.ts';
import { materialOf } from '../trade/materials.ts';
import { shelfHas } from './shelf.ts';
import type { Means } from './shelf.ts';

/** What the routes need to know of a unit and of a shelf; a `UnitFacts` and a `Shelf` will do. */
export type RouteUnit = Pick<UnitFacts, 'material' | 'cement'>;
export type RouteShelf = Means & Pick<Shelf, 'cements'>;

/** Where an intaglio stands. */
export interface IntaglioState {
  readonly contaminants: readonly Contaminant[];
  /** 'etched' on an oxide ceramic and 'abraded' on a glass-ceramic count as nothing. */
  readonly texture: 'none' | 'abraded' | 'etched';
  readonly primed: boolean;
  /** A cleaning or conditioning agent that is on, or was not rinsed off. */
  readonly agent?: StepId | null;
  /** Wet from a rinse or from the mouth. */
  readonly wet?: boolean;
}

/** True when the intaglio must be primed for the cement chosen. An unknown cement is taken to need it. */
export const needsPrimer = (unit: RouteUnit, shelf: Pick<Shelf, 'cements'>): boolean => {
  const cement = shelf.cements.find(({ label }) => label === unit.cement);
  if (cement === undefined) return true;
  if (!CEMENT_TABLE[cement.class].takesPrimer) return false;
  return !(materialOf(unit.material).phosphateCementPrimes && cement.carriesPhosphate);
};

/**
 * The step that deals with what is on the intaglio: the gentlest on the shelf that removes all
 * of it, and gives the texture where that is missing. Null when nothing has to be done.
 */
const treatment = (unit: RouteUnit, shelf: Means, state: IntaglioState): Cleaning | null => {
  const { cleanings, texture, conditioner } = materialOf(unit.material);
  const bare = state.texture !== texture;
  if (!bare && state.contaminants.length === 0) return null;
  const fit = cleanings.filter(
    (cleaning) =>
      (cleaning.textures || !bare) &&
      state.contaminants.every((contaminant) => cleaning.removes.includes(contaminant)),
  );
  return (
    fit.find(({ step }) => shelfHas(shelf, step)) ??
    cleanings.find(({ step }) => step === conditioner) ??
    null
  );
};

/**
 * The intaglio steps still needed from this state to ready-to-load, in order; empty when it is
 * ready. A step the shelf has no means for is named all the same: nothing else will do.
 */
export const intaglioRoute = (
  unit: RouteUnit,
  shelf: RouteShelf,
  state: IntaglioState,
): StepId[] => {
  const { cleanings, primer } = materialOf(unit.material);
  const agent = cleanings.find(({ step }) => step === state.agent) ?? null;
  const left = state.contaminants.filter((each) => !(agent?.removes.includes(each) ?? false));
  const texture = agent?.textures === true ? materialOf(unit.material).texture : state.texture;
  const rinseOff: StepId[] =
    agent?.rinse === undefined || agent.rinse === null ? [] : [agent.rinse];

  const next = treatment(unit, shelf, { ...state, contaminants: left, texture });
  const treat: StepId[] = [
    ...(left.length > 0 && rinseOff.length === 0 ? (['intaglio-rinse'] as const) : []),
    ...(next === null ? [] : [next.step]),
    ...(next?.rinse === undefined || next.rinse === null ? [] : [next.rinse]),
  ];
  const touched = agent !== null || treat.length > 0;
  const dry: StepId[] = touched || state.wet === true ? ['intaglio-dry'] : [];
  const prime: StepId[] =
    needsPrimer(unit, shelf) && (touched || dry.length > 0 || !state.primed)
      ? [primer, 'primer-dry']
      : [];
  return [...rinseOff, ...treat, ...dry, ...prime];
};
