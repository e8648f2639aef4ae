/** What people say to Seatcall: the grammar of it, and the command each phrase is. */
import type { Command, CommandType, Live, Reason } from '../../machines/contract/index.ts';
import { isLive } from './grammar.ts';
import { lotCommand } from './lots.ts';
import { meaningOf, type OwnPhrase } from './own.ts';
import {
  isAddressed,
  PAIR_TEXTS,
  type Phrase,
  PHRASES,
  REASON_TEXTS,
  TOOTH_TEXTS,
} from './table.ts';

export { isEveryday } from './everyday.ts';
export { ELSEWHERE_RULE, grammarFor, wholeGrammar } from './grammar.ts';
export { MOST_OWN, type OwnPhrase, ownPhraseProblem, tidyWords } from './own.ts';
export { type Phrase, PHRASES } from './table.ts';

const BY_TEXT: ReadonlyMap<string, Phrase> = new Map(
  PHRASES.flatMap((phrase) => phrase.texts.map((text) => [text, phrase] as const)),
);

/** The beginnings of a list of words with what is left, the empty beginning first. */
function splits(words: readonly string[]): readonly (readonly [head: string, tail: string])[] {
  return Array.from(
    { length: words.length + 1 },
    (_, i) => [words.slice(0, i).join(' '), words.slice(i).join(' ')] as const,
  );
}

const REASONED = ['skip', 'short', 'override', 'counts-clean'] as const satisfies CommandType[];
type Reasoned = Extract<Command, { type: (typeof REASONED)[number] }>;

function isReasoned(command: Command): command is Reasoned {
  const types: readonly CommandType[] = REASONED;
  return types.includes(command.type);
}

function withReason(command: Command, reason: Reason): Command | null {
  return isReasoned(command) ? { ...command, reason } : null;
}

function withTooth(command: Command, tooth: string | undefined): Command | null {
  if (tooth === undefined) return command;
  return isAddressed(command) ? { ...command, tooth } : null;
}

/** Where a command's step stands in its list of live ones. */
function placeOf(command: Command, live: Live): number {
  if (command.type === 'begin') return live.begins.indexOf(command.step);
  if (command.type !== 'finish' || command.step === undefined) return 0;
  return live.finishes.indexOf(command.step);
}

/** What is live, with what is within reach on a tooth that was named put first. */
function liveOn(live: Live | undefined, tooth: string): Live | undefined {
  const near = live?.near?.[tooth];
  if (live === undefined || near === undefined) return live;
  return { ...live, begins: [...near, ...live.begins], finishes: [...near, ...live.finishes] };
}

/** The command of words without a tooth before them. */
function untoothed(
  text: string,
  live: Live | undefined,
  own: readonly OwnPhrase[],
): Command | null {
  const pick = (words: string): Command | undefined => {
    const commands = BY_TEXT.get(meaningOf(words, own))?.commands ?? [];
    if (live === undefined) return commands[0];
    return commands
      .filter((command) => isLive(command, live))
      .toSorted((one, other) => placeOf(one, live) - placeOf(other, live))[0];
  };
  const whole = pick(text);
  if (whole !== undefined) return whole;
  for (const [head, tail] of splits(text.split(' '))) {
    const reason = REASON_TEXTS.get(tail);
    const command = pick(head);
    if (reason === undefined || command === undefined) continue;
    const reasoned = withReason(command, reason);
    if (reasoned !== null) return reasoned;
  }
  return null;
}

/**
 * The command a phrase is; null when it is none, or none that is live. The phrase is as a
 * recogniser gives it: lower case, single spaces, no call sign. Words such as "rinsing" mean the
 * step that is due: of several live ones the first in the lists of `live`, which are therefore to
 * begin with what is expected next. `own` are the practice's own phrases.
 */
export function commandFor(
  phrase: string,
  live?: Live,
  own: readonly OwnPhrase[] = [],
): Command | null {
  const lot = lotCommand(phrase);
  if (lot !== null) return live === undefined || isLive(lot, live) ? lot : null;
  const plain = untoothed(phrase, live, own);
  if (plain !== null) return plain;
  for (const [head, tail] of splits(phrase.split(' '))) {
    const tooth = TOOTH_TEXTS.get(head) ?? (tail === '' ? undefined : PAIR_TEXTS.get(head));
    if (tooth === undefined) continue;
    if (tail === '') {
      const unit = { type: 'unit', tooth } satisfies Command;
      return live === undefined || isLive(unit, live) ? unit : null;
    }
    const command = untoothed(tail, liveOn(live, tooth), own);
    const toothed = command === null ? null : withTooth(command, tooth);
    if (toothed !== null) return toothed;
  }
  return null;
}
