import { expect, test } from 'vitest';
import { recall } from '../../assistant/screens/command-line.ts';

test('earlier lines come back, newest first, and the ends hold', () => {
  const typed = ['try-in done', 'cleaner on'];
  expect([1, 2, 3, 0, -1].map((back) => recall(typed, back))).toEqual([
    { back: 1, text: 'cleaner on' },
    { back: 2, text: 'try-in done' },
    { back: 2, text: 'try-in done' },
    { back: 0, text: '' },
    { back: 0, text: '' },
  ]);
});
