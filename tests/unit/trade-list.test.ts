import { describe, expect, test } from 'vitest';
import { findNumbers, tradeNumbers } from '../../machines/trade/index.ts';

describe('every number of the trade', () => {
  const { marked, unmarked } = tradeNumbers();

  test('carries unit, mark, source and note', () => {
    expect(unmarked).toEqual([]);
    expect(marked.length).toBeGreaterThan(60);
  });

  test('a bare number is found, however deep', () => {
    expect(findNumbers({ etch: { s: 20, name: 'x' }, list: [{ bar: 2 }] }, 'table')).toEqual({
      marked: [],
      unmarked: ['table.etch.s', 'table.list.0.bar'],
    });
  });

  test('a number without its source is bare', () => {
    const number = { value: 20, unit: 's', mark: 'published', source: 'Nobody99', note: '' };
    expect(findNumbers(number, 'etch').unmarked).toEqual(['etch.value']);
  });

  test('a mark and its source fit: practice and judgement name no paper, papers are not practice', () => {
    const sourceless = {
      'common-practice': 'practice',
      judgement: 'judgement',
      computed: 'computed',
    };
    const wrong = marked.filter(({ number }) => {
      const own = Object.entries(sourceless).find(([mark]) => mark === number.mark)?.[1];
      return own === undefined
        ? Object.values(sourceless).includes(number.source)
        : number.source !== own;
    });
    expect(wrong).toEqual([]);
  });

  test('windows stand in order', () => {
    const wrong = marked.filter(
      ({ number }) =>
        'target' in number &&
        ((number.min ?? -Infinity) > number.target || number.target > (number.max ?? Infinity)),
    );
    expect(wrong).toEqual([]);
  });
});
