/** A grammar as tokens: which ways lead somewhere. */
import { expect, it } from 'vitest';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { heldGrammar } from '../../assistant/ear/held-grammar.ts';
import { TokenWalk, type WalkState } from '../../assistant/ear/neural/token-walk.ts';
import { textOf } from '../../assistant/ear/neural/vocabulary.ts';
import { parseJsgf } from '../../prompts/grammar/index.ts';

const walkOf = (rule: string): TokenWalk =>
  new TokenWalk(parseJsgf(`#JSGF V1.0; grammar g; public <phrase> = ${rule};`));

const ways = (walk: TokenWalk, state: WalkState): Map<string, WalkState> =>
  new Map(walk.arcs(state).map(({ token, state: to }) => [textOf(token), to]));

it('a beginning of a word that may not come here, of one that may, is a dead end', () => {
  const walk = walkOf('lantern [lingual cured]');
  const first = ways(walk, walk.start);
  // The vocabulary cuts "Lantern" into "Lan" and "tern", "Lingual" into "L" and "ingual".
  const [cut, other] = [first.get('▁Lan'), first.get('▁L')];
  if (cut === undefined || other === undefined) throw new Error([...first.keys()].join(' '));
  expect(walk.isDeadEnd(cut)).toBe(false);
  expect(walk.isDeadEnd(other)).toBe(true);
  // Where "Lingual" may come, its beginning is none.
  const either = walkOf('lantern | lingual cured');
  const way = ways(either, either.start).get('▁L');
  if (way === undefined) throw new Error('"Lingual" cannot begin');
  expect(either.isDeadEnd(way)).toBe(false);
});

it('where a sentence ends is no dead end', () => {
  const walk = walkOf('stop');
  const end = ways(walk, walk.start).get('▁Stop');
  if (end === undefined) throw new Error('"Stop" cannot begin');
  expect(end.endings).toEqual(['stop']);
  expect(walk.isDeadEnd(end)).toBe(false);
});

it('guesses what must come, the stop where a sentence may end, and nothing where it is open', () => {
  const walk = walkOf('lantern [lingual cured | crown out] | stop');
  const textAfter = (state: WalkState | undefined): string | null => {
    if (state === undefined) throw new Error('no such way');
    const token = walk.guess(state);
    return token === null ? null : textOf(token);
  };
  const first = ways(walk, walk.start);
  expect(textAfter(walk.start)).toBeNull();
  expect(textAfter(first.get('▁Lan'))).toBe('tern');
  expect(textAfter(first.get('▁Stop'))).toBe('.');
  const named = ways(walk, first.get('▁Lan') ?? walk.start).get('tern');
  expect(textAfter(named)).toBe('.');
  const crown = ways(walk, named ?? walk.start).get('▁crown');
  expect(crown?.endings).toEqual([]);
  expect(crown === undefined ? null : [...ways(walk, crown).keys()]).not.toContain('.');
});

it('begins with the call sign; where there is none, with what stops', () => {
  const { callSign, stopPhrases } = ATTENTION;
  const phrases = '#JSGF V1.0; grammar g; public <phrase> = crown out;';
  const textOfBeginning = (jsgf: string): string =>
    new TokenWalk(parseJsgf(jsgf)).beginning.map(textOf).join('');
  for (const mode of ['addressed', 'open', 'guarded'] as const)
    expect(textOfBeginning(heldGrammar(phrases, mode, callSign, stopPhrases, ['say again']))).toBe(
      '▁Lantern',
    );
  expect(textOfBeginning(heldGrammar(phrases, 'free', null, stopPhrases))).toBe('▁Stop');
});

it('a stretch of one of our calls is told from what somebody may say', () => {
  const { callSign, stopPhrases } = ATTENTION;
  const held = (calls: readonly string[]): TokenWalk => {
    const phrases = '#JSGF V1.0; grammar g; public <phrase> = crown out;';
    return new TokenWalk(parseJsgf(heldGrammar(phrases, 'open', callSign, stopPhrases, calls)));
  };
  const walk = held(['Crown out, and keep it dry.']);
  expect(['out and keep it', 'it dry'].map((said) => walk.isOwnVoice(said))).toEqual([true, true]);
  const others = [`${callSign} crown out`, 'stop', 'out keep it', ''];
  expect(others.filter((said) => walk.isOwnVoice(said))).toEqual([]);
  expect(held([]).isOwnVoice('out and keep it')).toBe(false);
});
