/** The grammar a segment is held to: the phrases, the call sign and the stop phrases. */
import { parseJsgf, printJsgf, type Expansion, type Grammar } from '../../prompts/grammar/index.ts';
import { ELSEWHERE_RULE } from '../../prompts/phrases/index.ts';
import { ATTENTION, wordsOf, type Mode } from './attention.ts';
import { OWN_VOICE_RULE } from './port.ts';

/** The public rule that active phrases must have. */
export const PHRASE_RULE = 'phrase';

/** A call sign cannot be used; the message says why and what can. */
export class CallSignError extends Error {
  override readonly name = 'CallSignError';
}

/**
 * The call sign as the ear uses it: lower case, single spaces.
 * @throws CallSignError when it is empty, not made of words in Latin letters, or a stop phrase.
 */
export function readCallSign(
  text: string,
  stopPhrases: readonly string[] = ATTENTION.stopPhrases,
): string {
  const trimmed = text.trim().toLowerCase().replaceAll(/\s+/g, ' ');
  const sign = wordsOf(trimmed).join(' ');
  if (sign === '' || sign !== trimmed.replaceAll('’', "'") || /\p{N}/u.test(sign))
    throw new CallSignError(`"${text}" is not a word; choose one that is said as it is spelled`);
  if (/[^\p{Script=Latin}' -]/u.test(sign))
    throw new CallSignError(
      `"${text}" has letters that the ear does not know; choose an English word`,
    );
  if (sign.split(' ').some((word) => stopPhrases.includes(word)))
    throw new CallSignError(`"${text}" holds a word that always stops; choose another`);
  return sign;
}

const words = (text: string): Expansion => {
  const items = text.split(' ').map((word): Expansion => ({ kind: 'word', text: word }));
  const [only] = items;
  return items.length === 1 && only ? only : { kind: 'sequence', items };
};

const anyOf = (options: readonly Expansion[]): Expansion => ({
  kind: 'alternatives',
  options: options.map((expansion) => ({ weight: null, expansion })),
});

const optional = (item: Expansion): Expansion => ({ kind: 'optional', item });
const sequence = (...items: readonly Expansion[]): Expansion => ({ kind: 'sequence', items });
const reference = (name: string): Expansion => ({ kind: 'reference', name });
const PHRASE = reference(PHRASE_RULE);

/**
 * Any stretch of a call's words: what is heard of our own voice, wherever the segment was cut. It
 * competes with the commands, so a call that comes back is heard as itself and not bent into one.
 */
function ownVoice(call: string): readonly Expansion[] {
  const spoken = wordsOf(call).map((text): Expansion => ({ kind: 'word', text }));
  return spoken.map(
    (_, first) =>
      spoken
        .slice(first)
        .reduceRight<Expansion | null>(
          (rest, word) => (rest === null ? word : sequence(word, optional(rest))),
          null,
        ) ?? PHRASE,
  );
}

function utterance(
  mode: Mode,
  sign: Expansion | null,
  said: readonly Expansion[],
  stop: Expansion,
  own: readonly Expansion[],
): Expansion {
  if (mode === 'guardedFree') return anyOf([stop, ...own]);
  if (mode === 'free' || sign === null) return anyOf([...said, stop, ...own]);
  const order = anyOf([...said, stop]);
  return mode === 'open'
    ? anyOf([sequence(optional(sign), order), sign, ...own])
    : anyOf([sequence(sign, optional(order)), stop, ...own]);
}

/**
 * Composes what a segment is held to from `phrases`, JSGF text whose rule `<phrase>` is what may
 * be said now; what its rule `<elsewhere>` holds, if there is one, is heard besides. Other
 * public rules in it count only where `<phrase>` refers to them. `calls` are the texts of our own
 * calls that may be in the segment.
 * @throws JsgfError when `phrases` is not JSGF; Error when it has no `<phrase>`.
 */
export function heldGrammar(
  phrases: string,
  mode: Mode,
  callSign: string | null,
  stopPhrases: readonly string[],
  calls: readonly string[] = [],
): string {
  const grammar: Grammar = parseJsgf(phrases);
  if (!grammar.rules.some((rule) => rule.name === PHRASE_RULE))
    throw new Error(`the active phrases have no rule <${PHRASE_RULE}>`);
  const taken = new Set(grammar.rules.map((rule) => rule.name));
  let name = 'utterance';
  while (taken.has(name)) name += '-';
  const stop = anyOf(stopPhrases.map(words));
  const sign = callSign === null ? null : words(callSign);
  const said = taken.has(ELSEWHERE_RULE) ? [PHRASE, reference(ELSEWHERE_RULE)] : [PHRASE];
  const own = calls.flatMap(ownVoice);
  const rules = grammar.rules.map((one) => ({ ...one, isPublic: false }));
  return printJsgf({
    ...grammar,
    rules: [
      {
        name,
        isPublic: true,
        expansion: utterance(
          mode,
          sign,
          said,
          stop,
          own.length > 0 ? [reference(OWN_VOICE_RULE)] : [],
        ),
      },
      ...rules,
      ...(own.length > 0 ? [{ name: OWN_VOICE_RULE, isPublic: false, expansion: anyOf(own) }] : []),
    ],
  });
}
