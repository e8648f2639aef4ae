import { STEPS } from '../../contract/index.ts';
import type { StepId } from '../../contract/index.ts';
import { planned, readyPlace } from './condition.ts';
import { soilLabel } from './labels.ts';
import type { UnitParts } from './unit-parts.ts';

const between = (first: StepId, last: StepId): readonly StepId[] =>
  STEPS.slice(STEPS.indexOf(first), STEPS.indexOf(last) + 1);

/** From the provisional to the clean prep, before the first try-in. */
const ARRIVING: readonly StepId[] = ['provisional-off', 'abutment-in', 'prep-clean'];
/** What is done to the tooth or the abutment after the try-in, besides the look whether it stays dry. */
const CONDITIONING: readonly StepId[] = between('isolate', 'prep-dry').filter(
  (step) => step !== 'isolate' && step !== 'dry-check',
);
/** What finishes an agent that is on already: wet or not, it is taken off. */
const WET_TOO: readonly StepId[] = ['tooth-etch-rinse', 'bond-thin'];

type Field = 'wet' | 'dry';
const stage = (k: number, field: Field): string => `stage ${k}, ${field}`;

interface Chain {
  readonly steps: readonly StepId[];
  /** How many of them come before the field is watched; they wet it. */
  readonly wetting: number;
  readonly watched: boolean;
}

function chainOf({ steps }: Pick<UnitParts, 'steps'>): Chain {
  const chain = steps.filter((step) => CONDITIONING.includes(step));
  const watched = steps.includes('dry-check');
  const wetting = watched
    ? chain.filter((step) => STEPS.indexOf(step) < STEPS.indexOf('dry-check')).length
    : 0;
  return { steps: chain, wetting, watched };
}

/** Places of the prep that other parts of the net read or move. */
export interface PrepPlaces {
  readonly first: string;
  /** Prepared for the first try-in. */
  readonly cleaned: string;
  /** Nothing done since it was last wetted. */
  readonly exposed: string;
  /** Ready for the restoration to come down on it. */
  readonly ready: string;
  /** Ready, but the field is no longer shown to be dry. */
  readonly wetted: readonly string[];
}

/** Where the prep's token goes, from the steps the plan has. */
export function prepPlaces(parts: Pick<UnitParts, 'steps' | 'triedIn'>): PrepPlaces {
  const arriving = parts.steps.filter((step) => ARRIVING.includes(step));
  const { steps, watched } = chainOf(parts);
  const field: Field = watched ? 'wet' : 'dry';
  const exposed = stage(0, field);
  const tried = parts.steps.includes('isolate') ? 'tried' : exposed;
  const cleaned = parts.triedIn ? `arriving ${arriving.length}` : tried;
  return {
    first: arriving.length > 0 ? 'arriving 0' : cleaned,
    cleaned,
    exposed,
    ready: stage(steps.length, 'dry'),
    wetted: watched ? [stage(steps.length, 'wet')] : [],
  };
}

/** Where a try-in leaves a prep that has not been isolated. */
export const triedPlace = (parts: Pick<UnitParts, 'steps' | 'triedIn'>): string =>
  parts.steps.includes('isolate') ? 'tried' : prepPlaces(parts).exposed;

function arrival(parts: UnitParts): void {
  const { builder, part, tooth, label } = parts;
  const { prep, opened } = part;
  const arriving = parts.steps.filter((step) => ARRIVING.includes(step));
  const { cleaned } = prepPlaces(parts);
  const placeOf = (k: number): string => (k === arriving.length ? cleaned : `arriving ${k}`);
  for (const [k, step] of arriving.entries()) {
    builder.add(label(step), [prep, placeOf(k), placeOf(k + 1)], ...(k === 0 ? opened : []));
    builder.add(label(step), [prep, placeOf(k + 1)]);
  }
  // What lands before the try-in is under the saliva of the try-in.
  for (let k = 0; k <= arriving.length; k += 1) {
    for (const surface of ['prep', 'field'] as const) {
      if (placeOf(k).startsWith('arriving')) {
        builder.add(soilLabel(tooth, surface, false), [prep, placeOf(k)]);
      }
    }
  }
}

function isolation(parts: UnitParts): void {
  const { builder, part, tooth, label, team, checks, steps } = parts;
  const { prep, where, wetting } = part;
  if (!steps.includes('isolate')) return;
  // Alone, one does the intaglio first and parks it covered (trade tables, the appointment).
  const alone = team === 'solo' ? [[part.intaglio, readyPlace(parts)] as const] : [];
  builder.add(
    label('isolate'),
    [prep, 'tried', prepPlaces(parts).exposed],
    [where, 'bench'],
    [part.checks, `${checks.length}`],
    ...alone,
  );
  for (const surface of ['prep', 'field'] as const) {
    builder.add(soilLabel(tooth, surface, false), [prep, 'tried']);
  }
  if (parts.triedIn) builder.add(null, [wetting, 'pending', 'calm'], [prep, 'tried']);
}

/** The acid of a plan that only may etch: on, rinsed off, and back to the stage before it. */
function mayEtch(parts: UnitParts, { steps, wetting }: Chain): void {
  const { builder, part, label, plan } = parts;
  if (steps.includes('tooth-etch') || !planned(plan, 'tooth-etch')) return;
  const before = steps.filter((step) => STEPS.indexOf(step) < STEPS.indexOf('tooth-etch')).length;
  const back = stage(Math.max(before, wetting), 'dry');
  for (let k = Math.max(before, wetting); k <= steps.length; k += 1) {
    builder.add(label('tooth-etch'), [part.prep, stage(k, 'dry'), 'under acid']);
  }
  builder.add(label('tooth-etch-rinse'), [part.prep, 'under acid', back]);
  for (const surface of ['prep', 'field'] as const) {
    const to = surface === 'prep' ? prepPlaces(parts).exposed : 'under acid';
    builder.add(soilLabel(parts.tooth, surface, false), [part.prep, 'under acid', to]);
  }
  if (parts.triedIn) {
    const { exposed } = prepPlaces(parts);
    builder.add(null, [part.wetting, 'pending', 'calm'], [part.prep, 'under acid', exposed]);
  }
}

/** The prepared tooth or abutment, with the working area round it. */
export function addPrep(parts: UnitParts): void {
  const { builder, part, tooth, label, steps } = parts;
  const { prep, where, wetting } = part;
  const chain = chainOf(parts);
  const { exposed } = prepPlaces(parts);
  arrival(parts);
  isolation(parts);
  const fields: readonly Field[] = chain.watched ? ['wet', 'dry'] : ['dry'];
  for (let k = 0; k <= chain.steps.length; k += 1) {
    for (const field of fields) {
      // Watched dry before what wets it is done: that look is lost again.
      if (k < chain.wetting && field === 'dry') continue;
      const place = stage(k, field);
      if (steps.includes('isolate')) builder.add(label('isolate'), [prep, place]);
      builder.add(soilLabel(tooth, 'prep', false), [prep, place, exposed]);
      const wetted = stage(k, chain.watched ? 'wet' : 'dry');
      builder.add(soilLabel(tooth, 'field', false), [prep, place, wetted]);
      if (parts.triedIn) builder.add(null, [wetting, 'pending', 'calm'], [prep, place, exposed]);
      if (chain.watched && k >= chain.wetting) {
        builder.add(label('dry-check'), [prep, place, stage(k, 'dry')]);
      }
      for (const [j, step] of chain.steps.entries()) {
        if (j > k) break;
        const wets = j < chain.wetting;
        if (!wets && field === 'wet' && !WET_TOO.includes(step)) continue;
        const to = stage(j + 1, wets ? 'wet' : field);
        builder.add(label(step), [prep, place, to], [where, 'bench']);
      }
    }
  }
  mayEtch(parts, chain);
}
