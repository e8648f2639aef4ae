/** Times and teeth as they are said. */
import { TEETH } from '../../machines/contract/index.ts';
import { sentence } from './wording.ts';

const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const TENS = [
  '',
  'ten',
  'twenty',
  'thirty',
  'forty',
  'fifty',
  'sixty',
  'seventy',
  'eighty',
  'ninety',
];

const digit = (value: number): string => DIGITS[value] ?? String(value);

/**
 * A whole number from 0 to 99 in words. Thirteen to nineteen are said digit by digit, because
 * fifteen and fifty sound alike (trade reference, 9C).
 */
export function numberWords(value: number): string {
  const [tens, ones] = [Math.floor(value / 10), value % 10];
  if (value < 10) return digit(value);
  if (value === 11) return 'eleven';
  if (value === 12) return 'twelve';
  if (tens === 1 && ones > 0) return `one ${digit(ones)}`;
  return ones === 0 ? (TENS[tens] ?? '') : `${TENS[tens] ?? ''} ${digit(ones)}`;
}

const LONGEST_SECONDS = 99;
const LONGEST_MINUTES = 60;
const BEYOND = 'More than an hour.';

const inSeconds = (value: number): string =>
  sentence(`${numberWords(value)} ${value === 1 ? 'second' : 'seconds'}`);

const inMinutes = (value: number): string =>
  sentence(`${numberWords(value)} ${value === 1 ? 'minute' : 'minutes'}`);

/** A time of whole seconds, 0 and up: seconds to 99, then minutes and seconds. */
export function durationPieces(seconds: number): readonly string[] {
  if (seconds <= LONGEST_SECONDS) return [inSeconds(seconds)];
  const [minutes, rest] = [Math.floor(seconds / 60), seconds % 60];
  if (minutes > LONGEST_MINUTES) return [BEYOND];
  return rest === 0 ? [inMinutes(minutes)] : [inMinutes(minutes), inSeconds(rest)];
}

/** Every piece {@link durationPieces} can give. */
export const DURATION_PIECES: readonly string[] = [
  ...Array.from({ length: LONGEST_SECONDS + 1 }, (_, i) => inSeconds(i)),
  ...Array.from({ length: LONGEST_MINUTES }, (_, i) => inMinutes(i + 1)),
  BEYOND,
];

const QUADRANTS = ['upper right', 'upper left', 'lower left', 'lower right'];
const PLACES = [
  'central incisor',
  'lateral incisor',
  'canine',
  'first premolar',
  'second premolar',
  'first molar',
  'second molar',
  'third molar',
];

/** "46" to "four six" (ISO 3950, digit by digit). */
export function toothDigits(tooth: string): string {
  return Array.from(tooth, (figure) => digit(Number(figure))).join(' ');
}

/** "46" to "lower right first molar". */
export function toothName(tooth: string): string {
  const [quadrant, place] = [Number(tooth.charAt(0)), Number(tooth.charAt(1))];
  return `${QUADRANTS[quadrant - 1] ?? ''} ${PLACES[place - 1] ?? ''}`;
}

/** Which of several open units a call is about: its digits alone, the tooth was named when work began there. */
export function shortTooth(tooth: string): string {
  return sentence(toothDigits(tooth));
}

/** The number is always named back in words: bare numbers mean different teeth in other systems. */
export function toothPieces(tooth: string): readonly string[] {
  return [sentence(`tooth ${toothDigits(tooth)}`), sentence(toothName(tooth))];
}

/** Every piece {@link toothPieces} can give. */
export const TOOTH_PIECES: readonly string[] = TEETH.flatMap(toothPieces);
