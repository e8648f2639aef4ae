import { describe, expect, test } from 'vitest';
import { CharAutomaton, type CharState } from '../../assistant/ear/neural/char-automaton.ts';
import { TokenWalk, type WalkState } from '../../assistant/ear/neural/token-walk.ts';
import { cutText, KEPT, textOf } from '../../assistant/ear/neural/vocabulary.ts';
import { parseJsgf, WordAutomaton } from '../../prompts/grammar/index.ts';

const RULES = `#JSGF V1.0; grammar test;
  public <phrase> = tooth <number>+ | next step | it's home | try-in done | wait <number> seconds | [so] okay;
  <number> = one | six | ten | sixteen | twenty | five;`;

const grammar = parseJsgf(RULES);
const { start } = new WordAutomaton(grammar);

/** The phrases that a written text can be. */
function readings(written: string): string[] {
  let reached: { state: CharState; words: readonly string[] }[] = [
    { state: new CharAutomaton(start).start, words: [] },
  ];
  for (const char of ` ${written.toLowerCase()}`) {
    reached = reached.flatMap(({ state, words }) =>
      (state.next.get(char) ?? []).map((arc) => ({
        state: arc.state,
        words: arc.word === null ? words : [...words, arc.word],
      })),
    );
  }
  const phrases = reached.flatMap(({ state, words }) =>
    state.endings.map((last) => (last === null ? words : [...words, last]).join(' ')),
  );
  return [...new Set(phrases)].toSorted();
}

describe('what the model may write for a phrase', () => {
  test.each([
    ['next step', ['next step']],
    ['Next step.', ['next step']],
    ['Next, step!', ['next step']],
    ['next-step', ['next step']],
    ['nextstep', []],
    ['next', []],
    ['next step..', []],
    ['Its home.', ["it's home"]],
    ['Try in done', ['try-in done']],
    ['Tooth 1-6', ['tooth one six']],
    ['Tooth 16.', ['tooth one six', 'tooth sixteen']],
    ['Tooth 25', ['tooth twenty five']],
    ['Tooth 20 5', ['tooth twenty five']],
    ['Tooth 2', []],
    ['Wait 10 seconds.', ['wait ten seconds']],
    ['So ok.', ['so okay']],
    ['', []],
  ])('%j can be %j', (written, phrases) => {
    expect(readings(written)).toEqual(phrases);
  });
});

describe('the token walk', () => {
  function walked(text: string): string[] {
    return along(cutText(text, true) ?? []);
  }

  function along(tokens: readonly number[]): string[] {
    const walk = new TokenWalk(grammar);
    let reached: { state: WalkState; words: readonly string[] }[] = [
      { state: walk.start, words: [] },
    ];
    for (const token of tokens) {
      reached = reached.flatMap(({ state, words }) =>
        walk
          .arcs(state)
          .filter((arc) => arc.token === token)
          .map((arc) => ({ state: arc.state, words: [...words, ...arc.words] })),
      );
    }
    return reached.flatMap(({ state, words }) =>
      state.endings.map((last) => (last === null ? words : [...words, last]).join(' ')),
    );
  }

  test('follows the tokens the model would write, and no others', () => {
    expect(walked('Next step.')).toEqual(['next step']);
    expect(walked('Tooth 16').toSorted()).toEqual(['tooth one six', 'tooth sixteen']);
    expect(walked('Next stop.')).toEqual([]);
    expect(walked('next-step')).toEqual(['next step']);
    expect(walked('Try in done')).toEqual(['try-in done']);
    expect(walked('TRY IN DONE')).toEqual([]);
  });

  test('a word is cut in one way only', () => {
    const vocabulary = new Map(KEPT.map((_, token) => [textOf(token), token]));
    const tokensOf = (...pieces: string[]) => pieces.map((piece) => vocabulary.get(piece) ?? -1);
    expect(along(tokensOf('▁next', '▁step'))).toEqual(['next step']);
    expect(along(tokensOf('▁n', 'ext', '▁step'))).toEqual([]);
    expect(along(tokensOf('▁next', '▁st', 'ep'))).toEqual([]);
  });

  test('never offers control or byte tokens', () => {
    const walk = new TokenWalk(grammar);
    const texts = walk.arcs(walk.start).map(({ token }) => textOf(token));
    expect(texts.filter((text) => !text.startsWith('▁'))).toEqual([]);
    expect(texts).toContain('▁Next');
    expect(texts).toContain('▁next');
  });
});
