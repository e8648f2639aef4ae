/** Call sign and phrases as one grammar, and the phrase without its call sign again. */
import { type Expansion, parseJsgf, printJsgf } from '../../prompts/grammar/index.ts';

/**
 * The grammar `<call sign> [<phrase>]`, a phrase being what any public rule of `text` allows;
 * `text` itself without a call sign.
 * @throws JsgfError when `text` is not JSGF.
 */
export function addressed(text: string, callSign: string | null): string {
  const grammar = parseJsgf(text);
  if (callSign === null) return text;
  const taken = new Set(grammar.rules.map(({ name }) => name));
  let name = 'addressed';
  while (taken.has(name)) name += '-';
  const options = grammar.rules
    .filter((rule) => rule.isPublic)
    .map((rule) => ({ weight: null, expansion: { kind: 'reference', name: rule.name } as const }));
  const items: Expansion[] = [
    ...callSign.split(' ').map((word) => ({ kind: 'word', text: word }) as const),
    { kind: 'optional', item: { kind: 'alternatives', options } },
  ];
  const rule = { name, isPublic: true, expansion: { kind: 'sequence', items } } as const;
  const others = grammar.rules.map((one) => ({ ...one, isPublic: false }));
  return printJsgf({ ...grammar, rules: [rule, ...others] });
}

/** What was said after the call sign; the call sign itself when that was all. */
export function afterCallSign(phrase: string, callSign: string | null): string {
  if (callSign === null || !phrase.startsWith(`${callSign} `)) return phrase;
  return phrase.slice(callSign.length + 1);
}
