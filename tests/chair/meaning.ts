import { type CaseState, unitOf, view } from '../../machines/conduct/index.ts';
import type { Command, StepId } from '../../machines/contract/index.ts';

/**
 * The step that words mean, from what the screen shows: the step named; for a bare "done" or "short"
 * the dwell that has run longest, of the unit worked on before another's, but of no other than the
 * unit addressed; else the step that is due.
 * Null for commands about no step, and for a "next" that only moves the pointer forward again.
 */
export function meaningOf(state: CaseState, command: Command): StepId | null {
  const { type } = command;
  if (type !== 'begin' && type !== 'finish' && type !== 'short' && type !== 'skip') {
    if (type !== 'next' || unitOf(state, state.active).focus !== null) return null;
    return meaningOf(state, { type: 'finish' });
  }
  if (command.step !== undefined) return command.step;
  const tooth = command.tooth ?? state.active;
  if (state.units[tooth] === undefined) return null;
  const seen = view({ ...state, active: tooth }, state.at);
  const longest = (mine: boolean) =>
    [...seen.dwells]
      .filter((dwell) => (dwell.tooth === tooth) === mine)
      .toSorted((one, other) => startOf(state, one) - startOf(state, other))[0];
  const others = command.tooth === undefined ? longest(false) : undefined;
  const dwell = type === 'skip' ? undefined : (longest(true) ?? others);
  return dwell?.step ?? seen.step?.id ?? null;
}

function startOf(state: CaseState, dwell: { readonly tooth: string; readonly step: StepId }) {
  const found = unitOf(state, dwell.tooth).dwells.find((one) => one.step === dwell.step);
  return found?.startedAt ?? 0;
}
