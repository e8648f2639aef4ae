/**
 * How trade words are said, for the synthesiser: its own letter-to-sound rules get these wrong.
 * Phones are the synthesiser's (CMU US English set), a stress digit on each vowel.
 * Pronunciations are common practice in the surgery, no source.
 */
const LEXICON: Readonly<Record<string, string>> = {
  buccal: 'b ah1 k ax0 l',
  gluconate: 'g l uw1 k ax0 n ey0 t',
  haemostatic: 'hh iy1 m ax0 s t ae1 t ih0 k',
  intaglio: 'ih0 n t ae1 l y ow0',
  occlusal: 'ax0 k l uw1 z ax0 l',
  palatal: 'p ae1 l ax0 t ax0 l',
  premolar: 'p r iy1 m ow1 l er0',
  sandblast: 's ae1 n d b l ae1 s t',
  sandblasted: 's ae1 n d b l ae1 s t ih0 d',
  sandblasting: 's ae1 n d b l ae1 s t ih0 ng',
  silane: 's ay1 l ey0 n',
  zirconia: 'z er0 k ow1 n iy0 ax0',
};

/** The lexicon in the synthesiser's addenda format: `word part-of-speech : phones`. */
export function lexiconText(): string {
  return Object.entries(LEXICON)
    .map(([word, phones]) => `${word} 0 : ${phones}\n`)
    .join('');
}
