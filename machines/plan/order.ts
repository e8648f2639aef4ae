import type { CaseFile, UnitFacts } from '../contract/index.ts';
import type { Trade } from '../trade/index.ts';

/** Place in the quadrant, 1 to 8: how far back. */
const place = ({ tooth }: UnitFacts): number => Number(tooth.charAt(1));

/** What is bonded on the bench first, then what is behind, then veneers from the middle outwards. */
const rank = ({ kind, substrate }: UnitFacts): number => {
  if (substrate === 'titanium-base') return 0;
  if (kind === 'veneer') return 2;
  return 1;
};

const inOrder = (one: UnitFacts, other: UnitFacts): number => {
  const group = rank(one) - rank(other);
  if (group !== 0) return group;
  const deep = place(other) - place(one);
  const far = one.kind === 'veneer' ? -deep : deep;
  return far === 0 ? one.tooth.localeCompare(other.tooth) : far;
};

const ALONE: readonly UnitFacts['kind'][] = ['bridge', 'resin-bonded-bridge', 'implant-crown'];

/** Whether two units may share a mix: the same cement, both small; of veneers only the central incisors. */
const share = (one: UnitFacts, other: UnitFacts): boolean => {
  if (one.cement !== other.cement || ALONE.includes(one.kind) || ALONE.includes(other.kind)) {
    return false;
  }
  if (one.kind !== 'veneer' && other.kind !== 'veneer') return true;
  return one.kind === other.kind && place(one) === 1 && place(other) === 1;
};

/**
 * The seating order, the units of one mix together: crowns from the most distal forward, two to a
 * mix at most; veneers the two central incisors first, of one mix, then outwards; bridges and
 * implant crowns a mix of their own. A dentist alone seats one unit at a time.
 */
export const seatingOrder = ({ units, team }: CaseFile, { limits }: Trade): string[][] => {
  const most = team === 'solo' ? 1 : limits.unitsAMix.value;
  const mixes: UnitFacts[][] = [];
  for (const unit of units.toSorted(inOrder)) {
    const last = mixes.at(-1);
    if (last !== undefined && last.length < most && last.every((each) => share(each, unit))) {
      last.push(unit);
    } else {
      mixes.push([unit]);
    }
  }
  return mixes.map((mix) => mix.map(({ tooth }) => tooth));
};
