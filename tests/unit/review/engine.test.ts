import { expect, test } from 'vitest';
import { InventedKey } from '../../../assistant/cli/cohort-key.ts';
import { inventedRecord } from '../../../assistant/cli/cohort-record.ts';
import { ReviewEngine } from '../../../assistant/app/review-engine.ts';
import { parseJsonLines } from '../../../machines/record/index.ts';
import { Reviewer } from '../../../machines/review/index.ts';
import { FollowUps, PatternReview } from '../../../machines/review/pattern/index.ts';
import { verifyText } from '../../../machines/record/index.ts';

const key = new InventedKey(5);
const made = Array.from({ length: 9 }, (_, i) => inventedRecord({ seed: 5, haste: 8 }, i, key));
const bytes = (text: string) => ({ bytes: new TextEncoder().encode(text) });
const followUp = [
  { format: 'seatcall-follow-up/1', invented: true },
  ...made.flatMap((one) => one.followUps),
]
  .map((one) => `${JSON.stringify(one)}\n`)
  .join('');

test('the engine counts what it lets go of, whenever the follow-up comes', async () => {
  const engine = new ReviewEngine();
  const rows = [];
  for (const { name, text } of made)
    rows.push((await engine.answer({ kind: 'take', name, source: bytes(text) })).row);
  expect(rows.map((row) => row?.name)).toEqual(made.map(({ name }) => name));
  await engine.answer({ kind: 'take', name: 'follow-up.ndjson', source: bytes(followUp) });
  const { settled } = await engine.answer({ kind: 'settle' });

  const followUps = new FollowUps();
  for (const [i, { value }] of parseJsonLines(followUp).lines.entries())
    expect(i === 0 ? followUps.begin(value) : followUps.add(value)).toEqual([]);
  const pattern = new PatternReview(followUps);
  const reviewer = new Reviewer();
  for (const { name, text } of made) {
    const verdict = verifyText(text);
    if (!verdict.ok) throw new Error(verdict.message);
    pattern.add(reviewer.review(name, verdict));
  }
  expect(settled).toEqual({ followed: followUps.size, pattern: pattern.result() });

  await engine.answer({ kind: 'clear' });
  expect((await engine.answer({ kind: 'settle' })).settled).toEqual({ followed: 0, pattern: null });
});

test('a record shown is whole, with what the guard says; a cut one is told, and is in no pattern', async () => {
  const engine = new ReviewEngine();
  const [first] = made;
  if (first === undefined) throw new Error('Nothing was made.');
  const shown = await engine.answer({ kind: 'show', name: 'x', source: bytes(first.text) });
  expect(shown.view?.record.alignment.moves.length).toBeGreaterThan(30);
  expect(shown.view?.sealed).toBe(true);
  expect(shown.view?.guard.guarded).toBeInstanceOf(Array);
  const part = first.text.slice(0, -first.text.length / 4);
  for (const name of ['one', 'two']) {
    const { row, problems } = await engine.answer({ kind: 'take', name, source: bytes(part) });
    expect(row).toMatchObject({ name, cut: true });
    expect(problems).toEqual([expect.stringMatching(/^line \d+: .*cut off/u)]);
  }
  expect((await engine.answer({ kind: 'settle' })).settled?.pattern).toBeNull();
});
