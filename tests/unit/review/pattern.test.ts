import { describe, expect, test } from 'vitest';
import type {
  GradedDeviation,
  ReviewedRecord,
  ReviewedUnit,
} from '../../../machines/review/deviation.ts';
import { FollowUps, PatternReview } from '../../../machines/review/pattern/index.ts';

const SEATED = '2026-01-05T09:30:00.000Z';
const day = (days: number): string =>
  new Date(Date.UTC(2026, 0, 5) + days * 86_400_000).toISOString().slice(0, 10);

const departure = (more: Partial<GradedDeviation>): GradedDeviation => ({
  grade: 'not done',
  tooth: '46',
  step: 'cleaner',
  entries: [4],
  asked: '',
  found: '',
  source: 'practice',
  refusal: null,
  measured: null,
  ...more,
});
const unit = (more: Partial<ReviewedUnit> = {}): ReviewedUnit => ({
  tooth: '46',
  material: 'zirconia-3y',
  kind: 'crown',
  substrate: 'dentin',
  cement: { label: 'resin', class: 'self-adhesive-resin' },
  roles: ['dentist', 'assistant'],
  formHolds: true,
  seated: SEATED,
  dwells: [],
  deviations: [],
  ...more,
});
const record = (reference: string, more: Partial<ReviewedRecord> = {}): ReviewedRecord => ({
  record: `${reference}.jsonl`,
  reference,
  invented: true,
  opened: SEATED,
  closed: true,
  entries: 5,
  units: [unit()],
  lots: [],
  guards: [],
  alignment: { cost: 0, fitness: 1, moves: [] },
  deviations: [],
  ...more,
});
const lost = (reference: string, days: number) => ({
  reference,
  tooth: '46',
  seated: day(0),
  lastSeen: day(days),
  debonded: day(days),
});
const held = (reference: string, days: number) => ({
  reference,
  tooth: '46',
  seated: day(0),
  lastSeen: day(days),
});

describe('follow-up', () => {
  test('recalls add up: the last day seen, or the first day it was lost', () => {
    const known = new FollowUps();
    for (const line of [
      held('a', 30),
      held('a', 400),
      held('a', 200),
      lost('b', 90),
      lost('b', 95),
      held('b', 10),
    ])
      expect(known.add(line)).toEqual([]);
    expect(known.of('a', '46', SEATED)).toEqual({ days: 400, lost: false });
    expect(known.of('b', '46', SEATED)).toEqual({ days: 90, lost: true });
    expect(known.size).toBe(2);
  });

  test('who was never seen, and who was seated another day', () => {
    const known = new FollowUps();
    known.add(held('a', 30));
    expect(known.of('a', '15', SEATED)).toBeNull();
    expect(known.of('c', '46', SEATED)).toBeNull();
    expect(known.of('a', '46', '2026-01-06T00:30:00.000Z')).toEqual({ days: 30, lost: false });
    expect(known.of('a', '46', '2026-01-09T09:30:00.000Z')).toBe('other');
  });

  test('every problem of a line at once', () => {
    const known = new FollowUps();
    expect(
      known.add({
        reference: '',
        tooth: '19',
        seated: '2026-02-30',
        lastSeen: '2026-03-01',
        age: 4,
      }),
    ).toEqual([
      "reference: allowed is the case's reference, 1 to 64 characters",
      'tooth: allowed is two digits of ISO 3950 as text, such as "46"',
      'seated: allowed is a date as YYYY-MM-DD',
      'age: not a field of a follow-up line; fields: reference, tooth, seated, lastSeen, debonded',
    ]);
    expect(known.add({ ...held('a', -1), debonded: day(2) })).toEqual([
      'lastSeen: allowed is a date as YYYY-MM-DD, not before the day it was seated',
      'debonded: allowed is a date as YYYY-MM-DD from the day it was seated to the day last seen, or left out',
    ]);
    expect(known.begin({ format: 'seatcall-follow-up/1', invented: true })).toEqual([]);
    expect(known.begin(held('a', 5))).toEqual([
      'the first line is {"format":"seatcall-follow-up/1","invented":true or false}',
    ]);
    known.add(held('a', 5));
    expect(known.add({ ...held('a', 9), seated: day(1) })).toEqual([
      'seated: another line has another day for a, tooth 46',
    ]);
    expect(known.add(7)).toEqual([
      'a follow-up line is one JSON object with reference, tooth, seated, lastSeen, debonded',
    ]);
  });
});

/** Six restorations: the first three without cleaner, from lot A; two of those come off, and one of the others. */
function six(): PatternReview {
  const known = new FollowUps();
  for (const line of [
    lost('r0', 10),
    lost('r1', 40),
    held('r2', 100),
    held('r3', 60),
    lost('r4', 70),
    held('r5', 365),
  ])
    known.add(line);
  const pattern = new PatternReview(known);
  for (let i = 0; i < 6; i += 1) {
    const deviations = i < 3 ? [departure({})] : [];
    const units = [
      unit({ deviations, roles: i % 2 === 0 ? ['dentist'] : ['dentist', 'seatcall'] }),
    ];
    const lots = [{ item: 'resin', lot: i < 3 ? 'A' : 'B' }];
    pattern.add(record(`r${i}`, { units, deviations, lots }));
  }
  return pattern;
}

describe('pattern', () => {
  const pattern = six().result();

  test('restorations, seatings and follow-up are counted', () => {
    const { records, invented, restorations, seated, followed, mismatched } = pattern;
    expect({ records, invented, restorations, seated, followed, mismatched }).toEqual({
      records: 6,
      invented: 6,
      restorations: 6,
      seated: 6,
      followed: 6,
      mismatched: 0,
    });
    // By hand: 5/6, 4/5 of that, 2/3 of that (at 70 days three are left), 645 days in all.
    expect(
      pattern.all.curve.points.map(({ time, survival }) => [time, survival.toFixed(4)]),
    ).toEqual([
      [10, '0.8333'],
      [40, '0.6667'],
      [60, '0.6667'],
      [70, '0.4444'],
      [100, '0.4444'],
      [365, '0.4444'],
    ]);
    expect(pattern.all.rate.rate?.toFixed(4)).toBe(((3 * 365.25) / 645).toFixed(4));
    expect(pattern.all.few).toBe(true);
  });

  test('a lot against the others: expected debonds by hand', () => {
    // Lot A at risk: 3 of 6, 2 of 5, 1 of 3 when one came off.
    const expected = (3 / 6 + 2 / 5 + 1 / 3).toFixed(6);
    expect(
      pattern.lots.map(({ item, lot, restorations, debonds, expected: e, few }) => [
        item,
        lot,
        restorations,
        debonds,
        e?.toFixed(6),
        few,
      ]),
    ).toEqual([
      ['resin', 'A', 3, 2, expected, true],
      ['resin', 'B', 3, 1, (3 - Number(expected)).toFixed(6), true],
    ]);
  });

  test('departures, grades and operators stand side by side', () => {
    expect(
      pattern.departures.map(({ grade, step, restorations, debonds }) => [
        grade,
        step,
        restorations,
        debonds,
      ]),
    ).toEqual([['not done', 'cleaner', 3, 2]]);
    expect(
      pattern.comparisons.map(({ by, groups }) => [
        by,
        groups.map(({ name, restorations, debonds }) => `${name} ${restorations}/${debonds}`),
      ]),
    ).toEqual([
      ['material', ['zirconia-3y 6/3']],
      ['cement', ['self-adhesive-resin 6/3']],
      ['operator', ['dentist 6/3']],
      ['form', ['form holds 6/3']],
      ['any departure', ['any departure 3/2', 'no departure 3/1']],
      ['not done', ['not done 3/2', 'the others 3/1']],
    ]);
  });

  test('an event of the seating has its hazard ratio, and it is called few', () => {
    const [event] = pattern.events;
    expect([event?.id, event?.restorations, event?.debonds, event?.few]).toEqual([
      'not-decontaminated',
      3,
      2,
      true,
    ]);
    // By hand, Mantel and Haenszel's way is close: 2 in 150 days against 1 in 495, by month and later.
    expect(event?.ratio?.ratio).toBeGreaterThan(2);
    expect(event?.ratio?.lower).toBeLessThan(1);
  });
});

test('without follow-up there are no debonds, only how the seatings went', () => {
  const pattern = new PatternReview();
  pattern.add(record('r0'));
  const { followed, events, lots, all } = pattern.result();
  expect({ followed, events, lots, debonds: all.debonds }).toEqual({
    followed: 0,
    events: [],
    lots: [],
    debonds: 0,
  });
});

test('guards, skips and dwells', () => {
  const pattern = new PatternReview();
  const moved = (kind: 'synchronous' | 'model', activity: string) => ({
    kind,
    activity,
    entry: kind === 'model' ? null : 3,
    transition: 't',
  });
  const guard = (refusal: 'in-mouth' | 'not-rinsed', forced: boolean) => ({
    refusal,
    tooth: '46',
    step: null,
    entry: 3,
    forced,
  });
  for (let i = 0; i < 4; i += 1) {
    const skipped = i === 0;
    const deviations = skipped ? [departure({ step: 'shade-photo', tooth: null })] : [];
    const dwells = [
      {
        step: 'silane' as const,
        servedS: 50 + 20 * i,
        minS: 60,
        targetS: 60,
        maxS: 100,
        entries: [1, 2],
      },
    ];
    pattern.add(
      record(`r${i}`, {
        deviations,
        units: [unit({ dwells })],
        guards:
          i < 2
            ? [guard('in-mouth', false), guard('in-mouth', false), guard('not-rinsed', true)]
            : [],
        alignment: {
          cost: skipped ? 1 : 0,
          fitness: 1,
          moves: [
            moved(skipped ? 'model' : 'synchronous', 'shade-photo'),
            moved('synchronous', '46 cleaner'),
            moved('synchronous', '46 cleaner'),
            moved('synchronous', '46 intaglio soiled'),
          ],
        },
      }),
    );
  }
  const { guards, skips, dwells } = pattern.result();
  expect(guards).toEqual([
    { refusal: 'in-mouth', hits: 4, records: 2, forced: 0 },
    { refusal: 'not-rinsed', hits: 2, records: 2, forced: 2 },
  ]);
  expect(skips).toEqual([
    { step: 'shade-photo', asked: 4, skipped: 1 },
    { step: 'cleaner', asked: 4, skipped: 0 },
  ]);
  expect(dwells).toEqual([
    {
      step: 'silane',
      served: 4,
      short: 1,
      long: 1,
      quantiles: [50, 50, 70, 90, 110],
      minS: 60,
      maxS: 100,
    },
  ]);
});
