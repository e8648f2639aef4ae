import type { Command, CommandType, Entry, Stamp } from '../contract/index.ts';
import { plainRefusal } from '../seating/index.ts';
import { carry, isPlain } from './carry.ts';
import { confirm, deny, override, reason } from './questions.ts';
import { meant } from './resolve.ts';
import { type Given, refused, type Result } from './result.ts';
import { tell } from './send.ts';
import type { CaseState } from './state.ts';
import { askBack, isAskedBack } from './unsure.ts';

/** What may be said while paused or stopped: the safe direction, and what must never be missed. */
const ALWAYS: readonly CommandType[] = [
  'resume',
  'stop',
  'soil',
  'find',
  'ask',
  'note',
  'lot',
  'finish',
  'short',
  'reason',
  'confirm',
  'deny',
];

/** Commands that leave a waiting question standing. */
const BESIDE: readonly CommandType[] = ['confirm', 'deny', 'reason', 'ask', 'note', 'lot', 'pause'];

function answered(given: Given): Result {
  const { state, stamp, command } = given;
  const to = <T extends Command>(one: T): Given<T> => ({ state, stamp, command: one });
  if (isPlain(command)) return carry(to(command));
  switch (command.type) {
    case 'override':
      return override(to(command));
    case 'reason':
      return reason(to(command));
    case 'confirm':
      return confirm(to(command));
    case 'deny':
      return deny(to(command));
  }
}

/**
 * Why the pace of the case keeps a command from being carried out; null when it does not. A yes is
 * what it says yes to: the case may have been paused since it was asked.
 */
function heldUp(state: CaseState, given: Command): Result | null {
  const { desk, active } = state;
  const command = given.type === 'confirm' ? (desk.context.pending?.command ?? given) : given;
  if (desk.matches({ pace: 'closed' })) return refused(state, null, plainRefusal('closed'));
  if (ALWAYS.includes(command.type) && !startsSomething(state, command)) return null;
  if (desk.matches({ pace: 'stopped' })) return refused(state, active, plainRefusal('stopped'));
  if (desk.matches({ pace: 'paused' })) return refused(state, active, plainRefusal('paused'));
  return null;
}

/** "Done" to a step that is done as it begins, such as the mix, is a beginning. */
function startsSomething(state: CaseState, command: Command): boolean {
  if (command.type !== 'finish' || misaddressed(state, command)) return false;
  return meant(state, command).act === 'begin';
}

/** A unit on a tooth the case does not have. */
function misaddressed(state: CaseState, command: Command): boolean {
  return (
    'tooth' in command && command.tooth !== undefined && state.units[command.tooth] === undefined
  );
}

/**
 * The one way through: a command and its time in, the next state, what the record keeps and what is
 * said out. Pure: the same state and command give the same result, so a record can be replayed.
 * Time never runs backwards: an earlier `at` counts as the last one. What was heard with middling
 * confidence and would change something is asked back instead.
 */
export function advance(
  before: CaseState,
  command: Command,
  stamp: Pick<Stamp, 'at'> & Partial<Pick<Stamp, 'heard'>>,
): Result {
  const at = Math.max(before.at, stamp.at);
  const state = { ...before, at };
  const held = heldUp(state, command);
  if (held !== null) return held;
  if (misaddressed(state, command)) return refused(state, null, plainRefusal('no-such-unit'));
  const open = BESIDE.includes(command.type) ? state : tell(state, { type: 'lapse' });
  const carried = answered({ state: open, command, stamp: { at } });
  const unsure = stamp.heard?.unsure === true && isAskedBack(command, carried);
  const result = unsure ? askBack(open, command, carried) : carried;
  const repeats = command.type === 'ask' && command.about === 'repeat';
  if (result.calls.length === 0 || repeats) return result;
  return { ...result, state: { ...result.state, lastCalls: result.calls } };
}

/** The state a record stands for: its commands carried out again, each at its own time. */
export function replay(
  state: CaseState,
  entries: readonly Pick<Entry, 'command' | 'stamp'>[],
): CaseState {
  return entries.reduce((so, entry) => advance(so, entry.command, entry.stamp).state, state);
}
