import { materialOf } from '../../trade/index.ts';
import { planned, soiledTo, gentlyCleaned } from './condition.ts';
import type { Cleaning, Condition } from './condition.ts';
import { soilLabel } from './labels.ts';
import { prepPlaces, triedPlace } from './prep.ts';
import type { Step } from './process-net.ts';
import type { UnitParts } from './unit-parts.ts';

const CONDITIONS = ['ok', 'bare', 'soiled', 'soiled-bare', 'filmed'] as const;

/** Where cleaning goes on from, by what is on the surface: wet and clean, rinsed, or untouched. */
const rinsedTo = (condition: Condition): string =>
  condition === 'ok' ? 'wet' : `rinsed ${condition}`;
const dirtyAs = (condition: Condition): string =>
  condition === 'ok' || condition === 'bare' ? rinsedTo(condition) : `dirty ${condition}`;

/** Places of the inner surface on the bench, each with what is on it then. */
function standings(parts: UnitParts): readonly (readonly [place: string, Condition])[] {
  const { primes } = parts;
  return [
    ...(['soiled', 'soiled-bare', 'filmed'] as const).map((one) => [dirtyAs(one), one] as const),
    ...(['bare', 'soiled', 'soiled-bare', 'filmed'] as const).map(
      (one) => [rinsedTo(one), one] as const,
    ),
    ['wet', 'ok'],
    ['dry', 'ok'],
    ...(primes === 'no' ? [] : ([['coated', 'ok']] as const)),
    ...(primes === 'must' ? ([['primed', 'ok']] as const) : []),
  ];
}

/** Where the token of the inner surface stands first. */
export function firstPlace({
  triedIn,
  excused,
  start,
}: Pick<UnitParts, 'triedIn' | 'excused' | 'start'>): string {
  if (!triedIn) return dirtyAs(start);
  return excused ? 'arrived excused' : `arrived ${start}`;
}

/** Before the first try-in: what lands is known, and a reason why it counts as clean falls with it. */
function arrival(parts: UnitParts): void {
  const { builder, part, tooth, label, start, excused, cleanings } = parts;
  const { intaglio, where, prep, arrived } = part;
  const deepToo = start === 'filmed' ? [start] : [start, 'filmed' as const];
  const places: (readonly [string, Condition, Condition])[] = deepToo.map(
    (one) => [`arrived ${one}`, one, soiledTo(one, cleanings.deep('saliva'))] as const,
  );
  if (excused) places.push(['arrived excused', start, parts.textured ? 'ok' : 'bare']);
  for (const [place, now, triedIn] of places) {
    for (const deep of parts.depths) {
      const to = `arrived ${soiledTo(now, deep)}`;
      builder.add(soilLabel(tooth, 'intaglio', deep), [intaglio, place, to]);
    }
    builder.add(
      label('try-in'),
      [intaglio, place, `mouth ${triedIn}`],
      [where, 'bench', 'mouth'],
      [prep, prepPlaces(parts).cleaned, triedPlace(parts)],
      ...arrived,
    );
  }
}

/** In the mouth: what lands, what is put in, and how it comes out. */
function mouth(parts: UnitParts): void {
  const { builder, part, tooth, label } = parts;
  const { intaglio, where, wetting, checks } = part;
  const pastes = [
    ...(planned(parts.plan, 'fit-paste') ? (['fit-paste'] as const) : []),
    ...(planned(parts.plan, 'shade') ? (['shade'] as const) : []),
  ];
  for (const now of CONDITIONS) {
    const place = `mouth ${now}`;
    for (const deep of parts.depths) {
      builder.add(soilLabel(tooth, 'intaglio', deep), [
        intaglio,
        place,
        `mouth ${soiledTo(now, deep)}`,
      ]);
    }
    builder.add(
      label('take-out'),
      [intaglio, place, dirtyAs(now)],
      [where, 'mouth', 'bench'],
      [wetting, 'calm'],
    );
    for (const paste of pastes) {
      const soils = paste === 'fit-paste' || parts.shadePaste;
      const deep = parts.cleanings.deep(paste === 'fit-paste' ? 'fit-paste' : 'try-in-paste');
      const into: Step = [intaglio, place, soils ? `mouth ${soiledTo(now, deep)}` : place];
      const at = parts.checks.indexOf(paste);
      if (at >= 0) builder.add(label(paste), [checks, `${at}`, `${at + 1}`], into);
      // One that was not planned, or is done once more, has no place of its own among the checks.
      // Past a planned silicone check the texture is gone, or has been given again.
      const film = parts.checks.indexOf('fit-paste');
      const textured = now === 'soiled' || now === 'filmed';
      for (let k = at + 1; k <= parts.checks.length; k += 1) {
        if (film >= 0 && k > film && !textured) continue;
        builder.add(label(paste), [checks, `${k}`], into);
      }
    }
  }
}

/** A cleaning from a place with `now` on it. What lands before the rinse makes it count for nothing. */
function clean(
  parts: UnitParts,
  { step, rinse }: Cleaning,
  [from, now]: readonly [string, Condition],
  after: Condition,
): void {
  const { builder, part, tooth, label, depths } = parts;
  const { intaglio } = part;
  if (rinse === null) {
    builder.add(label(step), [intaglio, from, rinsedTo(after)]);
    return;
  }
  const under = `under ${step} on ${now}`;
  const first = !builder.has(intaglio, under);
  builder.add(label(step), [intaglio, from, under]);
  if (!first) return;
  builder.add(label(rinse), [intaglio, under, rinsedTo(after)]);
  for (const deep of depths) {
    builder.add(soilLabel(tooth, 'intaglio', deep), [
      intaglio,
      under,
      `under, ${soiledTo(now, deep)}`,
    ]);
  }
}

/** From dirty to ready on the bench; everything may be done once more, and then what follows it too. */
function bench(parts: UnitParts): void {
  const { builder, part, tooth, label, cleanings, primes } = parts;
  const { intaglio, where, wetting } = part;
  const { gentle, strong } = cleanings;
  const rinses = [gentle?.rinse ?? null, strong.rinse].filter((one) => one !== null);
  const saliva = cleanings.deep('saliva');
  for (const [place, now] of standings(parts)) {
    for (const deep of parts.depths) {
      const to = dirtyAs(soiledTo(now, deep));
      builder.add(soilLabel(tooth, 'intaglio', deep), [intaglio, place, to]);
    }
    if (parts.triedIn) {
      builder.add(
        label('try-in'),
        [intaglio, place, `mouth ${soiledTo(now, saliva)}`],
        [where, 'bench', 'mouth'],
        [wetting, 'calm', 'pending'],
      );
    }
    builder.add(label('intaglio-rinse'), [intaglio, place, rinsedTo(now)]);
    if (place.startsWith('dirty')) {
      // Rinsed off where an agent lay that no longer counts: nothing is gained by it.
      for (const rinse of rinses) builder.add(label(rinse), [intaglio, place]);
      continue;
    }
    const gently = gentlyCleaned(now);
    if (gentle !== null && gently !== null) clean(parts, gentle, [place, now], gently);
    clean(parts, strong, [place, now], 'ok');
  }
  for (const one of ['soiled', 'soiled-bare', 'filmed'] as const) {
    const place = `under, ${one}`;
    if (!builder.has(intaglio, place)) continue;
    for (const rinse of rinses) builder.add(label(rinse), [intaglio, place, dirtyAs(one)]);
    for (const deep of parts.depths) {
      builder.add(soilLabel(tooth, 'intaglio', deep), [
        intaglio,
        place,
        `under, ${soiledTo(one, deep)}`,
      ]);
    }
  }
  builder.add(label('intaglio-dry'), [intaglio, 'wet', 'dry']);
  builder.add(label('intaglio-dry'), [intaglio, 'dry']);
  if (primes === 'no') return;
  const { primer } = materialOf(parts.facts.material);
  const ready = primes === 'must' ? 'primed' : 'dry';
  const from = primes === 'must' ? ['dry', 'coated', 'primed'] : ['dry', 'coated'];
  for (const place of from) builder.add(label(primer), [intaglio, place, 'coated']);
  builder.add(label('primer-dry'), [intaglio, 'coated', ready]);
}

/** The ceramic's inner surface, from the laboratory's bag to under the cement. */
export function addIntaglio(parts: UnitParts): void {
  if (parts.triedIn) {
    arrival(parts);
    mouth(parts);
  }
  bench(parts);
}
