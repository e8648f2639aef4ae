import type { CaseState, UndoPoint } from './state.ts';

/** How many commands can be taken back in a row. */
const DEPTH = 20;

/** Remembers the state before a command that can be taken back. */
export function remember(before: CaseState, after: CaseState, contamination = false): CaseState {
  const point: UndoPoint = { units: before.units, active: before.active, contamination };
  return { ...after, undo: [...after.undo, point].slice(-DEPTH) };
}

/** What cannot be taken back is also a wall for what came before it. */
export function wall(after: CaseState): CaseState {
  return { ...after, undo: [] };
}

/** The state before the last command that can be taken back; null when there is none. */
export function takeBack(state: CaseState): CaseState | null {
  const point = state.undo.at(-1);
  if (point === undefined) return null;
  return { ...state, units: point.units, active: point.active, undo: state.undo.slice(0, -1) };
}
