import type { Command, CommandType } from '../../machines/contract/index.ts';
import { isAnswer } from '../../machines/conduct/index.ts';
import { commandFor, type OwnPhrase } from '../../prompts/phrases/index.ts';
import type { Hearing } from '../ear/listener.ts';
import type { Given, Session } from './session.ts';

/** What became of one segment of speech at the session. */
export type Taken =
  | {
      readonly kind: 'command';
      readonly command: Command;
      readonly outcome: 'accepted' | 'asked' | 'refused';
    }
  /** The call sign alone: it listens. */
  | { readonly kind: 'attention' }
  /** Nothing of ours, or not addressed to us. */
  | { readonly kind: 'ignored' };

/** Said out of turn, these are worth an answer; a "yes" or a "pause" is more often meant for somebody else. */
const ACTS: readonly CommandType[] = ['begin', 'finish'];

/**
 * Said or typed out of turn, a step is never carried out; where it would be refused it is, so that
 * whoever gave it hears why. Null when nothing was done. Rejects when the entry could not be kept.
 */
export async function answerOutOfTurn(
  session: Session,
  command: Command,
  given: Given,
): Promise<'refused' | null> {
  if (!ACTS.includes(command.type)) return null;
  return (await session.turnDown(command, given)) === null ? null : 'refused';
}

/**
 * A hearing becomes a command and goes the one way through; a phrase that means nothing in the
 * state as it is by now is ignored. One said out of turn:
 * {@link answerOutOfTurn}. `own` are the practice's own phrases. Rejects when the entry could not be
 * kept.
 */
export async function takeHearing(
  session: Session,
  hearing: Hearing,
  own: readonly OwnPhrase[] = [],
): Promise<Taken> {
  if (hearing.kind === 'attention') return { kind: 'attention' };
  const { phrase, score } = hearing;
  const isOutOfTurn = hearing.why === 'out of turn';
  if (phrase === null || (hearing.kind !== 'command' && !isOutOfTurn)) return { kind: 'ignored' };
  const command = commandFor(phrase, isOutOfTurn ? undefined : session.live, own);
  if (command === null) return { kind: 'ignored' };
  // A yes that is none would carry out what was asked; whoever answers too softly is asked still.
  if (!hearing.sure && isAnswer(command)) return { kind: 'ignored' };
  const heard = {
    phrase,
    score: Math.min(1, Math.max(0, score ?? 0)),
    ...(hearing.sure ? {} : ({ unsure: true } as const)),
  };
  const given = { via: 'voice', heard } as const;
  if (isOutOfTurn) {
    const refused = await answerOutOfTurn(session, command, given);
    return refused === null ? { kind: 'ignored' } : { kind: 'command', command, outcome: refused };
  }
  const outcome = await session.give(command, given);
  return { kind: 'command', command, outcome: outcome.kind };
}
