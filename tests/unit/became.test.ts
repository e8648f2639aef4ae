import { expect, it } from 'vitest';
import { becameOf } from '../../assistant/app/became.ts';
import type { Hearing } from '../../assistant/ear/listener.ts';
import { becameWords } from '../../assistant/screens/ear-words.ts';

it.each<[Hearing['why'], string | null]>([
  ['own voice', null],
  ['out of turn', 'not now, nothing done'],
  ['not addressed', 'not for Seatcall, nothing done'],
  // Understood well, but long after it was said: "not understood" would have it said differently.
  ['too late', 'too late, nothing done: say it again'],
  ['unclear', 'not understood, nothing done'],
  ['nothing in the grammar', 'not understood, nothing done'],
  [null, 'not understood, nothing done'],
])('what is ignored for "%s" is told on the screen: %s', (why, words) => {
  const became = becameOf({ kind: 'ignored' }, { why });
  expect(became && becameWords(became).words).toBe(words);
});

it('the call sign alone is answered as such, whatever else', () => {
  expect(becameOf({ kind: 'attention' }, { why: null })).toBe('attention');
});
