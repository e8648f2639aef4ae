/**
 * How alike two phrases sound. Words to phones by the pronouncing dictionary that comes with the
 * finite-state recogniser (CMU, public), and by hand for what it lacks.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/** Trade words the dictionary lacks, or says otherwise; common practice, no source. */
export const OWN: Readonly<Record<string, string>> = {
  abutment: 'AH B AH T M AH N T',
  "bite's": 'B AY T S',
  "bleeding's": 'B L IY D IH NG Z',
  buccal: 'B AH K AH L',
  "cleaner's": 'K L IY N ER Z',
  "cord's": 'K AO R D Z',
  "dam's": 'D AE M Z',
  disinfected: 'D IH S IH N F EH K T IH D',
  disinfecting: 'D IH S IH N F EH K T IH NG',
  eugenol: 'Y UW JH AH N AA L',
  "flash's": 'F L AE SH IH Z',
  flossing: 'F L AO S IH NG',
  "gel's": 'JH EH L Z',
  gelled: 'JH EH L D',
  gluconate: 'G L UW K AH N EY T',
  haemostatic: 'HH IY M AH S T AE T IH K',
  hydrofluoric: 'HH AY D R OW F L AO R IH K',
  lingual: 'L IH NG G W AH L',
  "margin's": 'M AA R JH AH N Z',
  occlusal: 'AH K L UW Z AH L',
  "pack's": 'P AE K S',
  palatal: 'P AE L AH T AH L',
  premolar: 'P R IY M OW L ER',
  "prep's": 'P R EH P S',
  "provisional's": 'P R AH V IH ZH AH N AH L Z',
  pumicing: 'P AH M IH S IH NG',
  radiograph: 'R EY D IY OW G R AE F',
  rinsed: 'R IH N S T',
  roughen: 'R AH F AH N',
  roughened: 'R AH F AH N D',
  roughening: 'R AH F AH N IH NG',
  sandblasted: 'S AE N D B L AE S T IH D',
  sandblasting: 'S AE N D B L AE S T IH NG',
  "shade's": 'SH EY D Z',
  silane: 'S AY L EY N',
  torqued: 'T AO R K T',
  torquing: 'T AO R K IH NG',
  zirconia: 'Z ER K OW N IY AH',
};

const folder = dirname(createRequire(import.meta.url).resolve('soundswallower'));
const DICTIONARY = new Map(
  readFileSync(join(folder, 'model', 'en-us', 'dict.txt'), 'utf8')
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith(';;'))
    .map((line) => {
      const space = line.indexOf(' ');
      return [line.slice(0, space), line.slice(space + 1).trim()] as const;
    }),
);

/** The phones of a phrase. @throws Error for a word with no pronunciation. */
export function phonesOf(text: string): readonly string[] {
  return text.split(' ').flatMap((word) => {
    const phones = OWN[word] ?? DICTIONARY.get(word);
    if (phones === undefined) throw new Error(`no pronunciation of "${word}"`);
    return phones.split(' ');
  });
}

/** Phones that noise and fast speech turn into one another. */
const NEAR = [
  'P B T D K G',
  'M N NG',
  'F TH S SH',
  'V DH Z ZH',
  'S Z',
  'CH JH SH',
  'IY IH EY',
  'EH AE IH',
  'AA AO AH',
  'AH IH EH',
  'UW UH OW',
  'L R W',
].map((group) => group.split(' '));

function cost(one: string, other: string): number {
  if (one === other) return 0;
  return NEAR.some((group) => group.includes(one) && group.includes(other)) ? 0.5 : 1;
}

/** Edit distance of two phone strings, near phones at half cost, as a share of the longer. */
export function distance(one: readonly string[], other: readonly string[]): number {
  let row = Array.from({ length: other.length + 1 }, (_, i) => i);
  one.forEach((phone, i) => {
    const next = [i + 1];
    other.forEach((against, j) => {
      next.push(
        Math.min((row[j] ?? 0) + cost(phone, against), (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1),
      );
    });
    row = next;
  });
  return (row.at(-1) ?? 0) / Math.max(one.length, other.length);
}
