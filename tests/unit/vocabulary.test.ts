import tokenizer from 'llama-tokenizer-js';
import { describe, expect, it } from 'vitest';
import { writtenWays } from '../../assistant/ear/neural/segmentation.ts';
import { cutText, KEPT, textOf } from '../../assistant/ear/neural/vocabulary.ts';
import { allPieces } from '../../prompts/catalogue/index.ts';
import { PHRASES } from '../../prompts/phrases/index.ts';

const written = (text: string): string | undefined =>
  cutText(text, true)?.map(textOf).join('').replaceAll('▁', ' ').trimStart();

describe('the tokens kept', () => {
  it('are all that our phrases and calls are cut into', () => {
    const words = [...PHRASES.flatMap(({ texts }) => texts), ...allPieces()].flatMap(
      (text) => text.toLowerCase().match(/[a-z']+/gu) ?? [],
    );
    expect(words.length).toBeGreaterThan(2_000);
    const numbers = new Set(KEPT);
    const lost = [...new Set(words)]
      .flatMap(writtenWays)
      .filter((way) => tokenizer.encode(way, false, true).some((number) => !numbers.has(number)));
    expect(lost).toEqual([]);
  });

  it('write any word of Latin letters, in other pieces if need be', () => {
    for (const text of ['lantern', 'Straßenlaterne', 'przyjaciół', 'getElementById', 'naïve'])
      expect(written(text)).toBe(text);
  });

  it('write no word of other letters', () => {
    expect(cutText('лампа', true)).toBeNull();
  });
});
