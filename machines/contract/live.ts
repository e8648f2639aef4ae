import type { CommandType } from './command.ts';
import type { StepId } from './terms.ts';

/**
 * Which commands mean something now; made by `live(state)` in the seating machines and turned into
 * what of the grammar counts. A command that would be refused for a reason worth
 * hearing (the cleaner while the crown is in the mouth) is live: it must be heard to be refused.
 */
export interface Live {
  readonly commands: readonly CommandType[];
  /** Steps whose start may be said. */
  readonly begins: readonly StepId[];
  /** Steps whose end may be said by name; the bare "done" is the `finish` command itself. */
  readonly finishes: readonly StepId[];
  /** Per tooth of a case of several units: the steps within reach on that unit, the likeliest meant first. */
  readonly near?: Readonly<Record<string, readonly StepId[]>>;
}
