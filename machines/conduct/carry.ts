/** Every command that is no answer, carried out; what was settled about it before goes along. */
import type { Command } from '../contract/index.ts';
import { ask, back, close, keep, next, pace, switchUnit, timer, undo } from './control.ts';
import type { Given, Result } from './result.ts';
import {
  begin,
  countsClean,
  find,
  finish,
  type Settled,
  short,
  skip,
  soil,
  startOver,
  UNSETTLED,
} from './work.ts';

/** Answers to a question, and the override, which answers a refusal. */
const ANSWERS = ['confirm', 'deny', 'reason', 'override'] as const;
type Answer = Extract<Command, { readonly type: (typeof ANSWERS)[number] }>;
export type Plain = Exclude<Command, Answer>;

/** Tells a command that stands by itself from one that answers. */
export function isPlain(command: Command): command is Plain {
  const answers: readonly string[] = ANSWERS;
  return !answers.includes(command.type);
}

/** Carries out a command that stands by itself. */
export function carry(given: Given<Plain>, settled: Settled = UNSETTLED): Result {
  const { state, stamp, command } = given;
  const to = <T extends Command>(one: T): Given<T> => ({ state, stamp, command: one });
  switch (command.type) {
    case 'begin':
      return begin(to(command), settled);
    case 'finish':
      return finish(to(command), settled);
    case 'short':
      return short(to(command), settled);
    case 'skip':
      return skip(to(command), settled);
    case 'counts-clean':
      return countsClean(to(command), settled);
    case 'start-over':
      return startOver(to(command), settled);
    case 'soil':
      return soil(to(command));
    case 'find':
      return find(to(command));
    case 'unit':
      return switchUnit(to(command));
    case 'next':
      return next(to(command));
    case 'back':
      return back(to(command));
    case 'undo':
      return undo(to(command), settled.confirmed);
    case 'pause':
    case 'resume':
    case 'stop':
      return pace(to(command));
    case 'hold':
    case 'release':
    case 'add':
      return timer(to(command));
    case 'ask':
      return ask(to(command));
    case 'note':
    case 'lot':
      return keep(to(command));
    case 'close':
      return close(to(command));
  }
}
