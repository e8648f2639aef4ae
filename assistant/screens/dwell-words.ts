/** What a dwell's window says now, in words and a shape. */
import type { DwellView } from '../../machines/contract/index.ts';
import { duration, minutes, secondsLeft, secondsUp } from './format.ts';
import type { Shape } from './icons.ts';

interface DwellWords {
  readonly shape: Shape;
  readonly state: string;
  readonly hint: string;
}

/** The state in two words and what to do about it. */
export function dwellWords(dwell: DwellView): DwellWords {
  const { elapsedMs, minMs, targetMs, maxMs } = dwell;
  if (dwell.held) return { shape: 'held', state: 'Held', hint: 'The time stands still' };
  if (dwell.phase === 'short') {
    const left = duration(secondsLeft(minMs - elapsedMs));
    return { shape: 'early', state: 'Too early', hint: `${left} to the minimum` };
  }
  if (dwell.phase === 'long') return { shape: 'long', state: 'Too long', hint: 'End it now' };
  if (elapsedMs < targetMs) {
    const left = duration(secondsLeft(targetMs - elapsedMs));
    return { shape: 'right', state: 'Long enough', hint: `${left} to the aim` };
  }
  if (maxMs === null) return { shape: 'right', state: 'On time', hint: 'End when ready' };
  const left = duration(secondsLeft(maxMs - elapsedMs));
  return { shape: 'right', state: 'On time', hint: `End within ${left}` };
}

/** From this length on a dwell is counted in minutes and seconds from its start. */
const CLOCKED_MS = 100_000;

/**
 * The time gone, written in one way for the whole of a dwell so that nothing beside it moves:
 * `7`, `59`, `75` of a short one, `0:07`, `1:15` of a long one.
 */
export function dwellTime(dwell: DwellView): string {
  const seconds = secondsUp(dwell.elapsedMs);
  const clocked = Math.max(dwell.targetMs, dwell.maxMs ?? 0) >= CLOCKED_MS;
  return clocked ? minutes(seconds) : String(seconds);
}

/** Where things stand along the bar, in percent of its length. */
export interface BarMarks {
  readonly elapsed: number;
  readonly min: number;
  readonly target: number;
  /** Null where longer does no harm. */
  readonly max: number | null;
}

/** The bar ends a tenth beyond the maximum, or a quarter beyond the target where there is none. */
export function barMarks(dwell: DwellView): BarMarks {
  const end = dwell.maxMs === null ? dwell.targetMs * 1.25 : dwell.maxMs * 1.1;
  const at = (ms: number): number => Math.round(Math.min(1, Math.max(0, ms / end)) * 10_000) / 100;
  return {
    elapsed: at(dwell.elapsedMs),
    min: at(dwell.minMs),
    target: at(dwell.targetMs),
    max: dwell.maxMs === null ? null : at(dwell.maxMs),
  };
}

/** The dwells, the one that needs a hand first at the front. A held one comes last. */
export function byUrgency(dwells: readonly DwellView[]): readonly DwellView[] {
  const rank = (dwell: DwellView): number =>
    dwell.held ? Number.POSITIVE_INFINITY : dwell.targetMs - dwell.elapsedMs;
  return dwells.toSorted((a, b) => (rank(a) === rank(b) ? 0 : rank(a) - rank(b)));
}
