import type { StepId } from '../contract/index.ts';
import type { CaseState, UndoPoint } from './state.ts';

/** How many commands can be taken back in a row. */
const DEPTH = 20;

/** What an undo needs to know of the command it takes back. */
interface Done {
  readonly tooth: string;
  readonly step?: StepId | null;
  readonly contamination?: boolean;
}

/** Remembers the state before a command that can be taken back: of the units it changed, no others. */
export function remember(
  before: CaseState,
  after: CaseState,
  { tooth, step = null, contamination = false }: Done,
): CaseState {
  const changed = Object.entries(before.units).filter(([one, unit]) => after.units[one] !== unit);
  const units = Object.fromEntries(changed);
  const point: UndoPoint = { units, active: before.active, tooth, step, contamination };
  return { ...after, undo: [...after.undo, point].slice(-DEPTH) };
}

/** What cannot be taken back is also a wall for what came before it on that unit; other units are free of it. */
export function wall(after: CaseState, tooth: string): CaseState {
  const free = (point: UndoPoint): boolean =>
    point.tooth !== tooth && point.units[tooth] === undefined;
  return { ...after, undo: after.undo.filter(free) };
}

/** The state before the last command that can be taken back; null when there is none. */
export function takeBack(state: CaseState): CaseState | null {
  const point = state.undo.at(-1);
  if (point === undefined) return null;
  const units = { ...state.units, ...point.units };
  return { ...state, units, active: point.active, undo: state.undo.slice(0, -1) };
}
