/** Lot numbers, spelled: "cement lot four two bravo end lot". The end word keeps a cut-off number out. */
import type { Command } from '../../machines/contract/index.ts';

const ITEMS = [
  'cement',
  'silane',
  'zirconia primer',
  'porcelain etch',
  'tooth etch',
  'cleaner',
  'bond',
  'crown',
];

const LETTERS =
  'alpha bravo charlie delta echo foxtrot golf hotel india juliet kilo lima mike november oscar papa quebec romeo sierra tango uniform victor whiskey x-ray yankee zulu'.split(
    ' ',
  );

const CHARACTERS: ReadonlyMap<string, string> = new Map([
  ...'zero one two three four five six seven eight nine'
    .split(' ')
    .map((word, i) => [word, String(i)] as const),
  ...LETTERS.map((word) => [word, word.charAt(0).toUpperCase()] as const),
]);

/** The rules of a lot number; `<lot>` is the whole phrase. */
export const LOT_RULES: readonly string[] = [
  `<lot> = (${ITEMS.join(' | ')}) lot <character>+ end lot`,
  `<character> = ${[...CHARACTERS.keys()].join(' | ')}`,
];

/** What a spelled lot number means; null for any other phrase, or one longer than 20 characters. */
export function lotCommand(phrase: string): Command | null {
  const item = ITEMS.find((words) => phrase.startsWith(`${words} lot `));
  if (item === undefined || !phrase.endsWith(' end lot')) return null;
  const spelled = phrase.slice(`${item} lot `.length, -' end lot'.length).split(' ');
  const characters = spelled.map((word) => CHARACTERS.get(word));
  if (characters.length > 20 || characters.some((one) => one === undefined)) return null;
  return { type: 'lot', item, lot: characters.join('') };
}
