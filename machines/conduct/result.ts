import type {
  Call,
  Command,
  Deviation,
  Outcome,
  Refusal,
  Stamp,
  StepId,
} from '../contract/index.ts';
import { type CaseState, dwellsRunning } from './state.ts';
import { about } from './whose.ts';

/** What a command came to: the next state, what the record keeps, and what is said. */
export interface Result {
  readonly state: CaseState;
  readonly outcome: Outcome;
  /** The unit it was for; null when it was for the case. */
  readonly tooth: string | null;
  /** The step it was taken to mean; null when it was about none. */
  readonly step: StepId | null;
  readonly calls: readonly Call[];
}

/** A command with the time and forced refusals that go with it. */
export interface Given<T extends Command = Command> {
  readonly state: CaseState;
  readonly command: T;
  readonly stamp: Pick<Stamp, 'at'>;
}

export function accepted(
  state: CaseState,
  tooth: string | null,
  calls: readonly Call[],
  departure: Deviation | null = null,
  step: StepId | null = departure?.step ?? null,
): Result {
  const deviations = state.deviations + (departure === null ? 0 : 1);
  return {
    state: { ...state, deviations },
    outcome: { kind: 'accepted', deviation: departure },
    tooth,
    step,
    calls,
  };
}

/** A question for a yes or for a reason; nothing else has changed. */
export function asked(
  state: CaseState,
  tooth: string,
  call: Call,
  step: StepId | null = null,
): Result {
  return { state, outcome: { kind: 'asked' }, tooth, step, calls: [call] };
}

export function refused(state: CaseState, tooth: string | null, refusal: Refusal): Result {
  const bare = { id: 'refusal', refusal } as const;
  const named = refusal.id === 'dwell-too-short' && dwellsRunning(state) > 1;
  const call = named ? { ...bare, named } : bare;
  return {
    state,
    outcome: { kind: 'refused', refusal },
    tooth,
    step: refusal.step,
    calls: [tooth === null ? call : about(state, tooth, call)],
  };
}

/** A departure with nothing but its kind; the caller fills in what it knows. */
export function deviation(kind: Deviation['kind'], more: Partial<Deviation> = {}): Deviation {
  return { kind, step: null, reason: null, refusal: null, servedS: null, ...more };
}
