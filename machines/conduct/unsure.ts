/** What was heard with middling confidence is asked back, not guessed. */
import type { Command, CommandType } from '../contract/index.ts';
import type { Pending } from '../seating/index.ts';
import { asked, type Result } from './result.ts';
import { tell } from './send.ts';
import type { CaseState } from './state.ts';
import { about } from './whose.ts';

/** Changes nothing, or errs to the safe side: done at once, however unclear. */
const HARMLESS: readonly CommandType[] = ['ask', 'pause', 'stop', 'hold', 'deny'];

const ANSWERS: readonly CommandType[] = ['confirm', 'reason'];

/** An answer cannot be asked back without losing the question: whoever hears it must be sure of it. */
export const isAnswer = ({ type }: Command): boolean => ANSWERS.includes(type);

/**
 * Whether a command heard with middling confidence has to be asked back, given what it would come
 * to. A refusal and a read-back name what was understood and change nothing, so they stand as they are.
 */
export function isAskedBack(command: Command, { outcome }: Result): boolean {
  return outcome.kind === 'accepted' && !HARMLESS.includes(command.type) && !isAnswer(command);
}

/** "Silane on. Is that right?" in place of what `would` have come of the command; a yes carries it out. */
export function askBack(state: CaseState, command: Command, would: Result): Result {
  const tooth = would.tooth ?? state.active;
  const { step } = would;
  // A bare "done" means the same when the yes comes.
  const meant = command.type === 'finish' && step !== null ? { ...command, step, tooth } : command;
  const question = { id: 'ask-heard', command: meant, step } as const;
  // A unit is named by its tooth already.
  const call = command.type === 'unit' ? question : about(state, tooth, question);
  const pending: Pending = {
    command: meant,
    tooth,
    forced: [],
    reason: null,
    refusal: null,
    call,
  };
  return asked(tell(state, { type: 'ask.yes', pending }), tooth, call, step);
}
