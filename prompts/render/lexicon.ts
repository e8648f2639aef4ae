/**
 * How trade words are said, for the synthesiser: its own letter-to-sound rules get these wrong.
 * Phones are the synthesiser's (CMU US English set), a stress digit on each vowel.
 * Pronunciations are common practice in the surgery, no source.
 */
const LEXICON: Readonly<Record<string, string>> = {
  silane: 's ay1 l ey0 n',
  intaglio: 'ih0 n t ae1 l y ow0',
  zirconia: 'z er0 k ow1 n iy0 ax0',
};

/** The lexicon in the synthesiser's addenda format: `word part-of-speech : phones`. */
export function lexiconText(): string {
  return Object.entries(LEXICON)
    .map(([word, phones]) => `${word} 0 : ${phones}\n`)
    .join('');
}
