/** How the model may write a word of the grammar. */
export interface Spelling {
  readonly text: string;
  /** Written as a numeral, so the next numeral may follow without a gap: "16" for "one six". */
  readonly numeral: boolean;
  /** A tens digit that needs its unit: the "2" of "25". */
  readonly needsUnit: boolean;
}

const UNITS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const TEENS = [
  'ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen',
].flatMap((names) => names.split(' '));
const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];

const NUMERALS = new Map<string, string>([
  ['zero', '0'],
  ['oh', '0'],
  ...UNITS.map((name, index) => [name, String(index + 1)] as const),
  ...TEENS.map((name, index) => [name, String(index + 10)] as const),
  ...TENS.map((name, index) => [name, String((index + 2) * 10)] as const),
  ['hundred', '00'],
  ['percent', '%'],
]);

/** Words the model, trained on American captions, writes another way than a British grammar. */
const OTHER_WAYS = new Map<string, readonly string[]>([
  ['okay', ['ok']],
  ['millimetre', ['millimeter', 'mm']],
  ['millimetres', ['millimeters', 'mm']],
  ['millimeters', ['mm']],
  ['first', ['1st']],
  ['second', ['2nd']],
  ['third', ['3rd']],
  ['colour', ['color']],
  ['grey', ['gray']],
]);

const plain = (text: string): Spelling => ({ text, numeral: false, needsUnit: false });

/** Whether a word is one of "one" to "nine", the only ones that may follow a tens digit. */
export function isUnit(word: string): boolean {
  return UNITS.includes(word);
}

/** All spellings of a word (lower case), the grammar's own first. */
export function spellings(word: string): readonly Spelling[] {
  const ways = [plain(word), ...(OTHER_WAYS.get(word) ?? []).map(plain)];
  if (word.includes("'")) ways.push(plain(word.replaceAll("'", '')));
  if (word.includes('-')) {
    ways.push(plain(word.replaceAll('-', ' ')), plain(word.replaceAll('-', '')));
  }
  if (/^[0-9%]+$/.test(word)) return [{ text: word, numeral: true, needsUnit: false }];
  const numeral = NUMERALS.get(word);
  if (numeral !== undefined) ways.push({ text: numeral, numeral: true, needsUnit: false });
  const tens = TENS.indexOf(word);
  if (tens !== -1) ways.push({ text: String(tens + 2), numeral: true, needsUnit: true });
  return ways;
}
