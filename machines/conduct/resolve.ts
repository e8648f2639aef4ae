import type { Command, StepId } from '../contract/index.ts';
import { MOMENTS, nextStep } from '../seating/index.ts';
import { type CaseState, unitOf } from './state.ts';

type WithStep = Extract<Command, { readonly type: 'begin' | 'finish' | 'short' | 'skip' }>;

/** A command about a step, with the unit and the step it means. */
export interface Meant {
  readonly tooth: string;
  readonly step: StepId | null;
  readonly act: 'begin' | 'finish' | 'short' | 'skip';
}

/** The unit a command addresses; the active one when it names none. */
export function toothOf(state: CaseState, command: Command): string {
  return 'tooth' in command && command.tooth !== undefined ? command.tooth : state.active;
}

/**
 * The dwell that a bare "done" ends: the one running longest on the unit worked on; none there, the
 * one running longest on any other. Words to a tooth never end a dwell of another.
 */
function runningStep(
  state: CaseState,
  tooth: string,
  addressed: boolean,
): { tooth: string; step: StepId } | null {
  const others = Object.keys(state.units).filter((other) => other !== tooth);
  const own = [tooth];
  for (const teeth of addressed ? [own] : [own, others]) {
    const running = teeth.flatMap((each) =>
      unitOf(state, each).dwells.map((dwell) => ({ tooth: each, dwell })),
    );
    const [first] = running.toSorted((a, b) => a.dwell.startedAt - b.dwell.startedAt);
    if (first !== undefined) return { tooth: first.tooth, step: first.dwell.step };
  }
  return null;
}

/** Which unit and step a command means: named, running, or the one whose turn it is. */
export function meant(state: CaseState, command: WithStep): Meant {
  const tooth = toothOf(state, command);
  if (command.step !== undefined) {
    const moment = command.type === 'finish' && MOMENTS.includes(command.step);
    return { tooth, step: command.step, act: moment ? 'begin' : command.type };
  }
  const addressed = command.tooth !== undefined;
  const running = command.type === 'skip' ? null : runningStep(state, tooth, addressed);
  if (running !== null) return { ...running, act: command.type };
  const step = nextStep(unitOf(state, tooth));
  const moment = command.type === 'finish' && step !== null && MOMENTS.includes(step);
  return { tooth, step, act: moment ? 'begin' : command.type };
}
