import type { Command } from '../../machines/contract/index.ts';
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

/**
 * A hearing becomes a command and goes the one way through; a phrase that means nothing in the
 * state as it is by now is ignored. `own` are the practice's own phrases. Rejects when the entry could not be kept.
 */
export async function takeHearing(
  session: Session,
  hearing: Hearing,
  own: readonly OwnPhrase[] = [],
): Promise<Taken> {
  if (hearing.kind === 'attention') return { kind: 'attention' };
  const { phrase, score } = hearing;
  if (hearing.kind !== 'command' || phrase === null) return { kind: 'ignored' };
  const command = commandFor(phrase, session.live, own);
  if (command === null) return { kind: 'ignored' };
  // A yes that is none would carry out what was asked; whoever answers too softly is asked still.
  if (!hearing.sure && isAnswer(command)) return { kind: 'ignored' };
  const heard = {
    phrase,
    score: Math.min(1, Math.max(0, score ?? 0)),
    ...(hearing.sure ? {} : ({ unsure: true } as const)),
  };
  const outcome = await session.give(command, { via: 'voice', heard });
  return { kind: 'command', command, outcome: outcome.kind };
}
