import { SOURCES, tradeNumbers } from '../../machines/trade/index.ts';
import type { SourceKey, TradeNumber } from '../../machines/trade/index.ts';
import { amountWords, originWords } from '../screens/number-words.ts';
import { wrapped } from './text.ts';

const keysOf = (number: TradeNumber): SourceKey[] => {
  if ('value' in number) return [number.source];
  const { min, target, max } = number.apart ?? {};
  return [number, min, target, max].flatMap((from) => (from === undefined ? [] : [from.source]));
};

/** Every number of the trade tables with its mark and source, and the sources cited. */
export const sourcesText = (): string => {
  const { marked } = tradeNumbers();
  const used = new Set(marked.flatMap(({ number }) => keysOf(number)));
  return [
    'Numbers: value, or least / aim / most. A mark says how far to trust it. Instructions for use',
    'on the shelf outrank every one of them; `shelf.numbers` of a case changes any, by its path.',
    '',
    ...marked.map(({ path, number }) =>
      wrapped(
        `${path}: ${amountWords(number)} [${originWords(number)}] ${number.note}`,
        '',
        '    ',
      ),
    ),
    '',
    'Sources ("from memory": neither read again nor checked)',
    ...Object.entries(SOURCES)
      .filter(
        ([, { cite }]) =>
          !cite.includes('no source') &&
          !cite.startsWith('computed') &&
          !cite.startsWith('the practice'),
      )
      .map(([key, { cite, read }]) =>
        wrapped(
          `${key}: ${cite}${read ? '' : ' (from memory)'}${[...used].some((each) => each === key) ? '' : ' (cited in reasons)'}`,
          '',
          '    ',
        ),
      ),
    '',
  ].join('\n');
};
