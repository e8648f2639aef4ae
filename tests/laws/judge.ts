import type { CaseFile, Plan } from '../../machines/contract/index.ts';
import { law12 } from './fresh.ts';
import { NEVER } from './never.ts';
import { law1, law10, law11, law2, law3, law4, law5, law6, law7, law8, type Law } from './laws.ts';
import { deedsOf, type Told } from './record.ts';

const OF_ACTS: readonly (readonly [number, Law])[] = [
  [1, law1],
  [2, law2],
  [3, law3],
  [4, law4],
  [5, law5],
  [6, law6],
  [7, law7],
  [8, law8],
  [10, law10],
  [11, law11],
  [12, law12],
];

/** Refusals of an agent on a material: which of many reasons it is has to be told. */
export const CHEMISTRY: readonly string[] = [
  'etch-not-etchable',
  'acid-before-primer',
  'silane-on-zirconia',
  'abrade-glass',
  'primer-on-glass',
  'wrong-primer',
  'cleaner-on-glass',
];

/** A law that a record breaks: which, at which line (counted from 0), and how. */
export interface Breach {
  readonly law: number;
  readonly n: number;
  readonly how: string;
}

/** 9: forbids a refusal that names no reason, gives no seconds for a dwell cut short, or offers what can't be had. */
function law9(told: readonly Told[]): Breach[] {
  return told.flatMap(({ outcome }, n): Breach[] => {
    if (outcome.kind !== 'refused') return [];
    const { id, seconds, overridable, because } = outcome.refusal;
    const blame = (how: string): Breach => ({ law: 9, n, how });
    if (id === 'dwell-too-short' && (seconds ?? 0) <= 0) return [blame('no seconds left named')];
    if (CHEMISTRY.includes(id) && because === undefined) return [blame(`${id} without a reason`)];
    return overridable && NEVER.includes(id) ? [blame(`${id} offered for override`)] : [];
  });
}

/** Changes nothing, or only halts. */
const MAY_BE_GUESSED = ['ask', 'pause', 'stop', 'hold', 'deny'];

/** Forbids acting on what was not surely heard: it is asked back. Answers are heard surely or not at all. */
function guessed(told: readonly Told[]): Breach[] {
  return told.flatMap(({ command, outcome, heard }, n): Breach[] => {
    const acted = heard?.unsure === true && outcome.kind === 'accepted';
    const answers = command.type === 'confirm' || command.type === 'reason';
    if (!acted || answers || MAY_BE_GUESSED.includes(command.type)) return [];
    return [{ law: 8, n, how: `${command.type} done on a guess` }];
  });
}

/** Every breach of a law in a record. Time running backwards is one of the record itself (law 0). */
export function breaches(caseFile: CaseFile, plan: Plan, told: readonly Told[]): Breach[] {
  const found = deedsOf(told).flatMap(({ act, before }): Breach[] => {
    const unit = caseFile.units.find(({ tooth }) => tooth === act.tooth);
    const planned = plan.units.find(({ tooth }) => tooth === act.tooth);
    if (unit === undefined || planned === undefined) return [];
    const chair = { acts: before, unit, shelf: caseFile.shelf };
    return OF_ACTS.flatMap(([law, asks]) => {
      const how = asks({ act, chair, plan: planned });
      return how === null ? [] : [{ law, n: act.n, how }];
    });
  });
  const back = told.findIndex(({ at }, n) => at < (told[n - 1]?.at ?? 0));
  const order = back < 0 ? [] : [{ law: 0, n: back, how: 'time ran backwards' }];
  return [...found, ...law9(told), ...guessed(told), ...order];
}
