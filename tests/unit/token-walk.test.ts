/** A grammar as tokens: which ways lead somewhere. */
import { expect, it } from 'vitest';
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
  expect(way === undefined || either.isDeadEnd(way)).toBe(false);
});

it('where a sentence ends is no dead end', () => {
  const walk = walkOf('stop');
  const end = ways(walk, walk.start).get('▁Stop');
  expect(end?.endings).toEqual(['stop']);
  expect(end === undefined || walk.isDeadEnd(end)).toBe(false);
});
