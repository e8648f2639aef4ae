import type { Command } from '../../machines/contract/index.ts';

/** Some ways to say one thing, and the command it is. */
export interface Row {
  /** Ways to say it, as a JSGF expansion. */
  readonly says: string;
  /** What it is. Several where the same words mean the step that is due: the first live one wins. */
  readonly commands: readonly [Command, ...Command[]];
  /** A reason may follow. */
  readonly takesReason?: boolean;
}

/** One way to say one command, or several commands of which only one is due at a time. */
export const row = (says: string, ...commands: readonly [Command, ...Command[]]): Row => ({
  says,
  commands,
});
