import { describe, expect, test } from 'vitest';
import type { GradedDeviation } from '../../../machines/review/deviation.ts';
import { checkFindings, Findings, weigh } from '../../../machines/review/weigh/index.ts';
import type { WeighFacts } from '../../../machines/review/weigh/index.ts';
import { CAUSE_TABLE, CAUSES, CEMENT_SITES, SPELLS } from '../../../machines/trade/index.ts';

const findings = (more: Partial<Findings>): Findings =>
  Findings.parse({ format: 'seatcall-findings/1', invented: true, tooth: '46', ...more });
const departure = (more: Partial<GradedDeviation>): GradedDeviation => ({
  grade: 'not done',
  tooth: '46',
  step: null,
  entries: [],
  asked: '',
  found: '',
  source: 'practice',
  refusal: null,
  measured: null,
  ...more,
});
const FACTS: WeighFacts = {
  tooth: '46',
  material: 'zirconia-3y',
  kind: 'crown',
  formHolds: false,
  seated: '2026-01-05T09:30:00.000Z',
  findings: [],
};
const shares = (of: ReturnType<typeof weigh>, many = 3) =>
  of.ranked.slice(0, many).map(({ cause, share }) => `${cause} ${share.likely.toFixed(3)}`);

test('priors, and the chances of a row, sum to one', () => {
  const sum = (values: readonly number[]) => values.reduce((so, one) => so + one, 0).toFixed(6);
  expect(sum(CAUSES.map((cause) => CAUSE_TABLE[cause].prior.value))).toBe('1.000000');
  for (const cause of CAUSES) {
    const { site, spell } = CAUSE_TABLE[cause];
    expect(sum(CEMENT_SITES.map((id) => site[id].value))).toBe('1.000000');
    expect(sum(SPELLS.map((id) => spell[id].value))).toBe('1.000000');
  }
});

describe('the worked posteriors of the trade reference', () => {
  test('molar, 4 months, cement on the tooth, lacks form', () => {
    const found = findings({ cement: 'on-tooth', days: 120, form: 'lacks' });
    expect(shares(weigh(found, [], null), 2)).toEqual(['intaglio 0.545', 'form 0.326']);
  });

  test('the same with water only: the ratio 6 (2 to 15) goes through as a range', () => {
    const found = findings({ cement: 'on-tooth', days: 120, form: 'lacks' });
    const weighed = weigh(found, [departure({ step: 'cleaner', entries: [40] })], FACTS);
    expect(shares(weighed, 2)).toEqual(['intaglio 0.878', 'form 0.087']);
    expect(weighed.ranked.slice(2).every(({ share }) => share.likely <= 0.0135)).toBe(true);
    // By hand: 0.040095 r over itself and 0.033444, at r of 2 and 15.
    const [first, second] = weighed.ranked;
    expect([first?.share.low.toFixed(4), first?.share.high.toFixed(4)]).toEqual([
      '0.7057',
      '0.9473',
    ]);
    // By hand: 0.02394 over 0.033444 and 0.040095 r.
    expect([second?.share.low.toFixed(4), second?.share.high.toFixed(4)]).toEqual([
      '0.0377',
      '0.2107',
    ]);
  });

  test('premolar, 2 years, cement in the crown, has form, haemostatic not rinsed', () => {
    const found = findings({
      tooth: '15',
      cement: 'in-crown',
      days: 730,
      form: 'holds',
      known: ['residue'],
    });
    expect(shares(weigh(found, [], null), 2)).toEqual(['tooth-bond 0.770', 'overload 0.078']);
  });

  test('molar, 5 days, soft cement, has form, seated late', () => {
    const found = findings({ cement: 'none-or-soft', days: 5, form: 'holds' });
    const late = departure({ grade: 'late', step: 'seat', since: 'mix', entries: [77] });
    expect(shares(weigh(found, [late], FACTS), 1)).toEqual(['cement 0.960']);
  });

  test('molar, 3 years, core in the crown, lacks form', () => {
    const found = findings({ coreInside: true, days: 1096, form: 'lacks' });
    expect(shares(weigh(found, [], null), 2)).toEqual(['core 0.711', 'form 0.152']);
  });
});

describe('what is weighed', () => {
  const found = findings({ cement: 'on-tooth', days: 120 });

  test('of several events of a cause the strongest alone counts', () => {
    const both = [
      departure({ step: 'cleaner', entries: [40] }),
      departure({ step: 'abrade', entries: [41] }),
    ];
    const top = weigh(found, both, FACTS).ranked[0];
    expect(top?.factors.map(({ what, value }) => `${what} ${value.likely}`)).toEqual([
      'prior 0.22',
      'cement on the tooth 0.75',
      'in place 120 days: 1 to 12 months 0.45',
      'lacks resistance form (by the plan) 0.54',
      'zirconia not abraded 8',
    ]);
  });

  test("another unit's departures are not this one's, the case's are", () => {
    const events = (tooth: string | null) =>
      weigh(found, [departure({ step: 'cleaner', tooth })], FACTS).events.map(({ id }) => id);
    expect(events('15')).toEqual([]);
    expect(events(null)).toEqual(['not-decontaminated']);
  });

  test('what is forced speaks by the refusal it forced', () => {
    const forced = departure({
      grade: 'refused and forced',
      step: 'seat',
      refusal: 'working-time-over',
      entries: [80, 81],
    });
    const { events } = weigh(found, [forced], FACTS);
    expect(events.map(({ id, entries, from }) => ({ id, entries, from }))).toEqual([
      { id: 'late-seat', entries: [80, 81], from: 'record' },
    ]);
  });

  test('what was found at the chair speaks too', () => {
    const facts: WeighFacts = { ...FACTS, findings: [{ finding: 'moved', entry: 83 }] };
    const { events } = weigh(found, [], facts);
    expect(events.map(({ id, entries, from }) => ({ id, entries, from }))).toEqual([
      { id: 'moved', entries: [83], from: 'record' },
    ]);
  });

  test('late is told by what it was late after', () => {
    const late = (since: 'mix' | 'bond-thin' | 'primer-dry') =>
      weigh(found, [departure({ grade: 'late', step: 'seat', since })], FACTS).events.map(
        ({ id }) => id,
      );
    expect([late('mix'), late('bond-thin'), late('primer-dry')]).toEqual([
      ['late-seat'],
      ['tooth-conditioning'],
      [],
    ]);
  });

  test('what was served in full later on does not count', () => {
    const short = departure({ grade: 'short', step: 'cleaner', redone: 90 });
    expect(weigh(found, [short], FACTS).events).toEqual([]);
  });

  test('a cure counts as none only below half of what was asked', () => {
    const cured = (seconds: number) =>
      weigh(
        found,
        [
          departure({
            grade: 'short',
            step: 'cure-buccal',
            measured: { seconds, minS: 20, targetS: 20, maxS: null },
          }),
        ],
        FACTS,
      );
    expect(cured(9).events.map(({ id }) => id)).toEqual(['under-cured']);
    expect(cured(12).events).toEqual([]);
    expect(cured(12).notWeighed.length).toBe(1);
  });

  test('events of another material do not concern this one', () => {
    const etch = departure({ step: 'porcelain-etch' });
    expect(weigh(found, [etch], FACTS).events).toEqual([]);
    const glass: WeighFacts = { ...FACTS, material: 'lithium-disilicate' };
    expect(weigh(found, [etch], glass).events.map(({ id }) => id)).toEqual(['not-etched']);
  });

  test('days come from the record and the day it was lost', () => {
    const { ranked } = weigh(findings({ lost: '2026-05-05' }), [], FACTS);
    expect(ranked[0]?.factors[1]?.what).toBe('in place 120 days: 1 to 12 months');
  });

  test('lost before the record has it seated: no time in place, and it is said', () => {
    const { ranked, caveats } = weigh(findings({ lost: '2025-05-05' }), [], FACTS);
    expect(ranked[0]?.factors.map(({ what }) => what)).toEqual([
      'prior',
      'lacks resistance form (by the plan)',
    ]);
    expect(caveats.join(' ')).toContain('before the record has it seated');
  });

  test('a core that stayed still says something', () => {
    const share = (coreInside: boolean | null) =>
      weigh(findings({ coreInside }), [], null).ranked.find(({ cause }) => cause === 'core')?.share
        .likely ?? 1;
    expect(share(false)).toBeLessThan(share(null) / 4);
  });
});

describe('what would tell the leading two apart', () => {
  test('the open finding that is expected to move the odds most, and the events not known', () => {
    const { tellApart } = weigh(findings({ cement: 'on-tooth' }), [], null);
    expect(tellApart.between).toEqual(['intaglio', 'form']);
    expect(tellApart.findings.map(({ name }) => name)).toEqual([
      'whether the prep has resistance form',
      'how long it was in place',
    ]);
    // By hand, weights 0.165 and 0.084: P(lacks) 0.54 and 0.95.
    const [form] = tellApart.findings;
    const share = 0.165 / 0.249;
    const byHand =
      share * (0.54 * Math.log(0.54 / 0.95) + 0.46 * Math.log(0.46 / 0.05)) +
      (1 - share) * (0.95 * Math.log(0.95 / 0.54) + 0.05 * Math.log(0.05 / 0.46));
    expect(form?.expectedLogRatio.toFixed(9)).toBe(byHand.toFixed(9));
    expect(tellApart.events[0]).toMatchObject({
      frequency: null,
      expectedLogRatio: null,
      id: 'not-etched',
      name: 'glass-ceramic not etched with hydrofluoric acid, or silicone left for phosphoric acid',
      speaksFor: 'intaglio',
      ratio: { low: 4, likely: 10, high: 30 },
    });
  });

  test('of an event, where the records reviewed together say how often it happens', () => {
    const at = (seen: number) =>
      weigh(findings({ cement: 'on-tooth' }), [], null, { 'not-etched': { seen, of: 20 * seen } })
        .tellApart.events[0];
    // By hand: in one of twenty under the other cause, ten times as often under this one.
    const share = 0.165 / 0.249;
    const byHand =
      share * (0.5 * Math.log(10) + 0.5 * Math.log(0.5 / 0.95)) -
      (1 - share) * (0.05 * Math.log(10) + 0.95 * Math.log(0.5 / 0.95));
    expect(at(10)).toMatchObject({ id: 'not-etched', frequency: { seen: 10, of: 200 } });
    expect(at(10)?.expectedLogRatio?.toFixed(9)).toBe(byHand.toFixed(9));
    // Seen nine times, it says too little.
    expect(at(9)?.expectedLogRatio).toBeNull();
  });

  test('an event weaker than one already known would add nothing', () => {
    const { tellApart } = weigh(
      findings({ cement: 'on-tooth', days: 120, form: 'lacks', known: ['not-decontaminated'] }),
      [],
      FACTS,
    );
    expect(tellApart.findings).toEqual([]);
    expect(tellApart.events.map(({ id }) => id)).toEqual(['not-abraded']);
  });
});

test('it says consistent with, never caused by', () => {
  const weighed = weigh(findings({ cement: 'mixed' }), [], null);
  const text = JSON.stringify(weighed);
  expect(weighed.ranked.every(({ says }) => says.startsWith('consistent with: '))).toBe(true);
  expect(text).not.toMatch(/caused? by|because of/i);
  expect(weighed.working.at(-8)).toMatch(/^sum of the most likely = /);
});

test('with judged numbers doubted, no share is one number', () => {
  const { ranked } = weigh(findings({ cement: 'mixed' }), [], null);
  expect(ranked.every(({ wide }) => wide.high > 2 * wide.low)).toBe(true);
});

describe('findings', () => {
  test('every problem at once, with its field and what is allowed', () => {
    const checked = checkFindings({
      format: 'findings',
      tooth: '19',
      cement: 'everywhere',
      seated: '2026-02-30',
      lost: '2026-05-01',
      days: 12.5,
      known: ['moved', 'cursed'],
      __form: 1,
    });
    if (checked.ok) throw new Error('These findings are wrong');
    expect(checked.problems.map(({ field, message }) => `${field}: ${message}`)).toEqual([
      'format: "findings" is not allowed; allowed: "seatcall-findings/1"',
      'tooth: "19" is not allowed; allowed: two digits of ISO 3950 as text, quadrant 1 to 4, then 1 to 8, such as "46"',
      'cement: "everywhere" is not allowed; allowed: on-tooth, in-crown, mixed, none-or-soft, not-seen',
      'seated: "2026-02-30" is not allowed; allowed: a date as YYYY-MM-DD',
      'days: 12.5 is not allowed; allowed: whole days in place, 0 to 36525; instead of lost, not beside it',
      expect.stringMatching(
        /^known\[1\]: "cursed" is not allowed; allowed: a list of: not-decontaminated, /,
      ),
      expect.stringMatching(/^__form: not a field of findings; fields: format, /),
      'days: given beside lost; allowed: whole days in place, 0 to 36525; instead of lost, not beside it',
    ]);
  });

  test('dates that run backwards, and what is no object', () => {
    const backwards = checkFindings({
      format: 'seatcall-findings/1',
      tooth: '46',
      seated: '2026-05-02',
      lost: '2026-05-01',
    });
    expect(backwards).toEqual({
      ok: false,
      problems: [
        {
          field: 'lost',
          message:
            '"2026-05-01" is before the day it was seated, "2026-05-02"; allowed: a date as YYYY-MM-DD, not before the day it was seated',
        },
      ],
    });
    for (const nothing of [null, [], 'x', 3])
      expect(checkFindings(nothing)).toEqual({
        ok: false,
        problems: [{ field: 'findings', message: 'findings are one JSON object' }],
      });
  });
});

test('an event says which departures it was taken from: a short cleaning is not the same as none', () => {
  const short: GradedDeviation = {
    grade: 'short',
    tooth: '46',
    step: 'cleaner',
    entries: [6, 7],
    asked: '',
    found: '',
    source: '',
    refusal: null,
    measured: null,
  };
  const { events } = weigh(findings({ cement: 'on-tooth' }), [short], FACTS);
  expect(events).toMatchObject([
    { id: 'not-decontaminated', entries: [6, 7], shownBy: ['cleaner short'] },
  ]);
});
