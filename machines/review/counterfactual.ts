import type { Command, CommandType, Entry, Header, RefusalId, StepId } from '../contract/index.ts';
import { advance, initialState } from '../conduct/index.ts';
import type { CaseState } from '../conduct/index.ts';

/** A command that today's machine refuses, and what the record says became of it. */
export interface Guarded {
  readonly entry: number;
  readonly tooth: string | null;
  readonly step: StepId | null;
  readonly refusal: RefusalId;
  /** `refused` then too; `forced`: refused then too, and overridden; `let through`: accepted then. */
  readonly then: 'refused' | 'forced' | 'let through';
}

/** What today's machine would have done with a record. */
export interface Counterfactual {
  readonly guarded: readonly Guarded[];
  /** Entries that came to something else then than they would today, other than a refusal. */
  readonly otherwise: readonly number[];
}

const ANSWERS: readonly CommandType[] = ['confirm', 'reason'];
/** How many refusals of one command are overridden before it is let go. */
const INSIST = 8;

/**
 * Carries a command out against the machine's refusals, so that what follows it stands where it
 * stood then; the state as it was where that can't be done.
 */
function insist(state: CaseState, entry: Entry, owed: Command): CaseState {
  let now = advance(state, owed, entry.stamp);
  for (let turns = 0; turns < INSIST; turns += 1) {
    if (now.outcome.kind === 'accepted') return now.state;
    const command =
      now.outcome.kind === 'asked'
        ? ({ type: 'confirm' } as const)
        : ({ type: 'override', reason: 'clinical-judgement' } as const);
    if (now.outcome.kind === 'refused' && !now.outcome.refusal.overridable) return state;
    now = advance(now.state, command, entry.stamp);
  }
  return state;
}

/**
 * Would the guard have caught it? Every command of the record is given to today's machine in its
 * turn, on the plan the record has. What was accepted then and is refused today is carried out all
 * the same, as far as that can be forced; what was forced earns nothing, so that later steps that
 * hang on it are refused too: the first for a unit is the answer, the rest follow from it.
 */
export function counterfactual(header: Header, entries: readonly Entry[]): Counterfactual {
  let state = initialState(header.case, header.plan);
  const guarded: Guarded[] = [];
  const otherwise: number[] = [];
  /** Asked about then and refused today: the yes to it is no refusal of its own. */
  let owed: Command | null = null;
  for (const entry of entries) {
    const { n, outcome, command } = entry;
    const today = advance(state, command, entry.stamp);
    const accepted = outcome.kind === 'accepted';
    if (today.outcome.kind !== 'refused') {
      if (today.outcome.kind !== outcome.kind) otherwise.push(n);
      state = today.state;
      continue;
    }
    const answered: Command | null = ANSWERS.includes(command.type) ? owed : null;
    if (answered === null) {
      const { tooth, step, outcome: refused } = today;
      const then = outcome.kind === 'refused' ? 'refused' : 'let through';
      guarded.push({ entry: n, tooth, step, refusal: refused.refusal.id, then });
    }
    if (outcome.kind === 'asked') owed = answered ?? command;
    else owed = null;
    state = accepted ? insist(state, entry, answered ?? command) : today.state;
  }
  return { guarded: marked(guarded, entries), otherwise };
}

/** Tells refusals that were overridden from those that stood. */
function marked(guarded: readonly Guarded[], entries: readonly Entry[]): readonly Guarded[] {
  return guarded.map((one) => {
    if (one.then !== 'refused') return one;
    const forced = entries.slice(one.entry).find(({ outcome }) => outcome.kind === 'accepted');
    const deviation = forced?.outcome.kind === 'accepted' ? forced.outcome.deviation : null;
    const ids = [deviation?.refusal?.id ?? null, ...(deviation?.also ?? [])];
    return ids.includes(one.refusal) ? { ...one, then: 'forced' } : one;
  });
}
