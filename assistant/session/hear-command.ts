import type { Command, CommandType } from '../../machines/contract/index.ts';
import { isAnswer } from '../../machines/conduct/index.ts';
import { commandFor, type OwnPhrase } from '../../prompts/phrases/index.ts';
import type { Hearing } from '../ear/listener.ts';
import type { Session } from './session.ts';

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
 * A hearing becomes a command and goes the one way through; a phrase that means nothing in the
 * state as it is by now is ignored. A step said out of turn is never carried out, but where it would
 * be refused it is, so that whoever said it hears why. `own` are the practice's own phrases. Rejects
 * when the entry could not be kept.
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
  if (isOutOfTurn) {
    if (!ACTS.includes(command.type)) return { kind: 'ignored' };
    const refused = await session.turnDown(command, { via: 'voice', heard });
    return refused === null
      ? { kind: 'ignored' }
      : { kind: 'command', command, outcome: refused.kind };
  }
  const outcome = await session.give(command, { via: 'voice', heard });
  return { kind: 'command', command, outcome: outcome.kind };
}
