import { STEPS } from '../../contract/index.ts';
import type { StepId } from '../../contract/index.ts';
import { CURES } from '../../seating/index.ts';
import { planned, readyPlace, soiledTo } from './condition.ts';
import { soilLabel, startOverLabel } from './labels.ts';
import { prepPlaces } from './prep.ts';
import type { UnitParts } from './unit-parts.ts';

/** Ways to make the excess firm: the plan has one of them, and the other may take its place. */
const FIRMING: readonly StepId[] = ['tack', 'gel-wait'];

/** A way down the chain after the seat. */
interface Link {
  readonly from: string;
  readonly step: StepId;
  readonly to: string;
}

const cured = (done: readonly StepId[]): string =>
  `cured ${done.map((one) => one.slice('cure-'.length)).join(' ')}`;

/** The light goes round in any order, and round again. */
function cureLinks(cures: readonly StepId[], start: string): readonly Link[] {
  const sets = cures.reduce<readonly (readonly StepId[])[]>(
    (all, cure) => [...all, ...all.map((one) => [...one, cure])],
    [[]],
  );
  return sets.flatMap((done) =>
    cures.map((step) => {
      const after = cures.filter((one) => one === step || done.includes(one));
      return { from: done.length === 0 ? start : cured(done), step, to: cured(after) };
    }),
  );
}

interface Chain {
  readonly links: readonly Link[];
  /** The place in which the cement has set: from there nothing is given up any more. */
  readonly set: string;
  readonly last: string;
}

/** The chain from seated to the unit's end, from the steps the plan has. */
function chainOf({ steps, plan }: Pick<UnitParts, 'steps' | 'plan'>): Chain {
  const links: Link[] = [];
  let here = 'seated';
  let set = here;
  const rest = steps.filter((step) => STEPS.indexOf(step) > STEPS.indexOf('seat'));
  const cures = CURES.filter((step) => rest.includes(step));
  for (const step of rest) {
    if (FIRMING.includes(step)) {
      const ways = FIRMING.filter((one) => planned(plan, one));
      links.push(...ways.map((one) => ({ from: here, step: one, to: 'firm' })));
      here = 'firm';
    } else if (CURES.includes(step)) {
      if (step !== cures[0]) continue;
      links.push(...cureLinks(cures, here));
      here = cured(cures);
      set = here;
    } else {
      links.push({ from: here, step, to: `after ${step}` });
      here = `after ${step}`;
      if (step === 'set') set = here;
    }
  }
  if (!steps.includes('set') && planned(plan, 'set')) {
    links.push({ from: set, step: 'set', to: set });
  }
  return { links, set, last: here };
}

/** Steps done once more further down: more flash found, a bite adjusted again. They harm nothing. */
function again({ links }: Chain): readonly Link[] {
  const order = [...new Set(links.map(({ to }) => to))];
  return links
    .filter(({ from, step, to }) => from !== to && !CURES.includes(step) && step !== 'set')
    .flatMap(({ step, to }) => {
      // Firm is firm: what comes after it is another light.
      const places = FIRMING.includes(step) ? [to] : order.slice(order.indexOf(to));
      return places.map((at) => ({ step, at }));
    })
    .filter(({ step, at }) => !links.some((link) => link.from === at && link.step === step))
    .map(({ step, at }) => ({ from: at, step, to: at }));
}

function mixing(parts: UnitParts): void {
  const { builder, part, tooth, label, steps } = parts;
  const { cement, intaglio, prep, where, checks } = part;
  const ready = readyPlace(parts);
  const places = prepPlaces(parts);
  const surfaces = [
    [intaglio, ready],
    [prep, places.ready],
    [checks, `${parts.checks.length}`],
  ] as const;
  const mixes = steps.includes('mix');
  if (mixes) {
    builder.add(label('mix'), [cement, 'none', 'mixed'], ...surfaces);
    // Cement that has gone off is mixed anew.
    builder.add(label('mix'), [cement, 'mixed'], ...surfaces);
  }
  builder.add(
    label('load'),
    [cement, mixes ? 'mixed' : 'none', 'loaded'],
    [intaglio, ready, 'loaded'],
  );
  for (const deep of parts.depths) {
    builder.add(
      soilLabel(tooth, 'intaglio', deep),
      [intaglio, 'loaded', `dirty ${soiledTo('ok', deep)}`],
      [cement, 'loaded', 'none'],
    );
  }
  builder.add(
    label('seat'),
    [cement, 'loaded', 'seated'],
    [intaglio, 'loaded', 'seated'],
    [prep, places.ready, 'under'],
    [where, 'bench', 'seated'],
  );
  for (const surface of ['prep', 'field'] as const) {
    builder.add(soilLabel(tooth, surface, false), [prep, 'under']);
  }
}

/** Cement out and everything again, as long as it has not set. */
function startOver(parts: UnitParts, { links, set }: Chain): void {
  const { builder, part, tooth } = parts;
  const { cement, intaglio, prep, where } = part;
  const { ready, wetted, exposed } = prepPlaces(parts);
  const label = startOverLabel(tooth);
  const filmed = 'dirty filmed';
  if (parts.steps.includes('mix')) {
    builder.add(
      label,
      [cement, 'mixed', 'none'],
      [intaglio, readyPlace(parts), filmed],
      [prep, ready, exposed],
    );
  }
  for (const place of new Set([ready, ...wetted, exposed])) {
    builder.add(
      label,
      [cement, 'loaded', 'none'],
      [intaglio, 'loaded', filmed],
      [prep, place, exposed],
    );
  }
  const places = [...new Set(['seated', ...links.map(({ to }) => to)])];
  for (const place of places.slice(0, places.indexOf(set))) {
    builder.add(
      label,
      [cement, place, 'none'],
      [intaglio, 'seated', filmed],
      [prep, 'under', exposed],
      [where, 'seated', 'bench'],
    );
  }
}

/** The cement from the mix to the unit's end. */
export function addCement(parts: UnitParts): void {
  const chain = chainOf(parts);
  mixing(parts);
  for (const { from, step, to } of [...chain.links, ...again(chain)]) {
    parts.builder.add(parts.label(step), [parts.part.cement, from, to]);
  }
  startOver(parts, chain);
}

/** The last place of the cement's chain. */
export const lastPlace = (parts: Pick<UnitParts, 'steps' | 'plan'>): string => chainOf(parts).last;
