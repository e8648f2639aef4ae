/**
 * Which pieces of words the recogniser knows: `npx tsx tests/bench/fit/kept-tokens.ts FILE...`, with
 * lists of English words, one to a line, writes `assistant/ear/neural/kept-tokens.ts`. Kept are the
 * tokens into which the vocabulary cuts the words of the lists and of all phrases, with a capital
 * and without, letters, figures and stops.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import tokenizer from 'llama-tokenizer-js';
import { writtenWays } from '../../../assistant/ear/neural/segmentation.ts';
import { parseJsgf, wordsIn } from '../../../prompts/grammar/index.ts';
import { stateLines } from '../surgery.ts';

/** No text, begin and end. */
const CONTROL = [0, 1, 2];
const LETTERS = /^▁?[\p{Script=Latin}\d]$|^▁$|^[.,!?'%:-]+$/u;

const lists = process.argv.slice(2);
if (lists.length === 0) throw new Error('name the word lists');
const listed = lists.flatMap((file) => readFileSync(file, 'utf8').split('\n')).filter(Boolean);
const [any] = await stateLines();
const said = [...wordsIn(parseJsgf(any?.phrases ?? ''))];

const kept = new Set(CONTROL);
const keep = (word: string, spaced: boolean): void => {
  for (const text of [word, ...writtenWays(word.toLowerCase())])
    for (const token of tokenizer.encode(text, false, spaced)) kept.add(token);
};
for (const word of listed) keep(word, true);
for (const word of said) for (const spaced of [true, false]) keep(word, spaced);
tokenizer.vocabById.forEach((text, token) => {
  if (LETTERS.test(text)) kept.add(token);
});

const bits = new Uint8Array(Math.ceil(tokenizer.vocabById.length / 8));
for (const token of kept) bits[token >> 3] = (bits[token >> 3] ?? 0) | (1 << (token & 7));
writeFileSync(
  new URL('../../../assistant/ear/neural/kept-tokens.ts', import.meta.url),
  `/**
 * A bit for each token of the tokenizer, least first, ${kept.size} of them set: those the recogniser
 * knows. Written by \`tests/bench/fit/kept-tokens.ts\`; do not edit.
 */
export const KEPT_BITS =
  '${Buffer.from(bits).toString('base64')}';
`,
);
