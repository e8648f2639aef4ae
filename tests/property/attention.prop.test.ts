import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  AT_FIRST,
  ATTENTION,
  judge,
  whenAddressed,
  whileSounding,
  type AttentionState,
} from '../../assistant/ear/attention.ts';

const PHRASES = ['cleaner on', 'next step', 'seating', 'yes', 'seal it'];
const CALLS = ['Cleaner on now.', 'Next step: dry it.', 'Seating? Say yes.', 'Overdue.'];

const event = fc.oneof(
  fc.record({
    kind: fc.constant('call' as const),
    text: fc.constantFrom(...CALLS),
    lengthMs: fc.integer({ min: 200, max: 4_000 }),
    question: fc.boolean(),
  }),
  fc.record({
    kind: fc.constant('speech' as const),
    phrase: fc.constantFrom(...PHRASES),
    addressed: fc.boolean(),
    lengthMs: fc.integer({ min: 200, max: 3_000 }),
  }),
  fc.record({ kind: fc.constant('stop' as const), lengthMs: fc.integer({ min: 200, max: 900 }) }),
  fc.record({ kind: fc.constant('woken' as const) }),
);

interface Moment {
  readonly atMs: number;
  readonly event: typeof event extends fc.Arbitrary<infer E> ? E : never;
}

/** Events with a pause, possibly negative (overlap), before each. */
const history: fc.Arbitrary<Moment[]> = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 6_000 }), event), { maxLength: 40 })
  .map((steps) => {
    let atMs = 1_000;
    return steps.map(([pause, happened]) => {
      atMs += pause;
      return { atMs, event: happened };
    });
  });

interface Outcome {
  readonly before: AttentionState;
  readonly moment: Moment;
  readonly verdict: ReturnType<typeof judge>['verdict'];
}

/** What became of each thing that was said. */
function outcomesOf(moments: readonly Moment[]): Outcome[] {
  let state = AT_FIRST;
  const outcomes: Outcome[] = [];
  for (const moment of moments) {
    const { atMs, event: happened } = moment;
    if (happened.kind === 'woken') state = whenAddressed(state, atMs, ATTENTION);
    else if (happened.kind === 'call') {
      const untilMs = atMs + happened.lengthMs;
      const { text, question } = happened;
      state = whileSounding(state, { text, question, fromMs: atMs, untilMs }, ATTENTION);
    } else {
      const sign = happened.kind === 'speech' && happened.addressed ? 'lantern ' : '';
      const phrase = `${sign}${happened.kind === 'stop' ? 'stop' : happened.phrase}`;
      const span = { speechStartMs: atMs, speechEndMs: atMs + happened.lengthMs };
      const judged = judge(state, span, { phrase, score: 1, sure: true }, ATTENTION);
      outcomes.push({ before: state, moment, verdict: judged.verdict });
      state = judged.state;
    }
  }
  return outcomes;
}

const beginsIn = (state: AttentionState, { atMs }: Moment): boolean =>
  state.sounding.some((call) => atMs >= call.fromMs && atMs <= call.untilMs + 120);

const isBare = ({ moment: { event: happened } }: Outcome): boolean =>
  happened.kind === 'speech' && !happened.addressed;

it('stop is always a command, whatever went before and whatever sounds', () => {
  fc.assert(
    fc.property(history, (moments) => {
      const stops = outcomesOf(moments).filter(({ moment }) => moment.event.kind === 'stop');
      const not = stops.filter(({ verdict }) => verdict.kind !== 'command');
      expect(not).toEqual([]);
    }),
  );
});

it('no bare phrase that begins while a call sounds is ever a command', () => {
  fc.assert(
    fc.property(history, (moments) => {
      const guarded = outcomesOf(moments).filter(
        (outcome) => isBare(outcome) && beginsIn(outcome.before, outcome.moment),
      );
      expect(guarded.filter(({ verdict }) => verdict.kind !== 'ignored')).toEqual([]);
    }),
  );
});

it('a bare phrase is a command only within eight seconds of a reason', () => {
  fc.assert(
    fc.property(history, (moments) => {
      const woken = moments.filter(({ event: { kind } }) => kind === 'woken');
      let heardMs = -Infinity;
      const reasonless = outcomesOf(moments).filter((outcome) => {
        const { before, moment, verdict } = outcome;
        const { atMs, event: happened } = moment;
        const asked = before.sounding.filter((call) => call.question).map((call) => call.untilMs);
        const called = woken.map((one) => one.atMs).filter((wokenMs) => wokenMs <= atMs);
        const sinceMs = atMs - Math.max(heardMs, ...asked, ...called);
        if (verdict.kind !== 'ignored' && 'lengthMs' in happened)
          heardMs = Math.max(heardMs, atMs + happened.lengthMs);
        return isBare(outcome) && verdict.kind === 'command' && sinceMs > 8_000;
      });
      expect(reasonless).toEqual([]);
    }),
  );
});

it('an addressed phrase is a command unless the call that sounds shares its words', () => {
  fc.assert(
    fc.property(history, (moments) => {
      const addressed = outcomesOf(moments).flatMap(({ moment: { event: happened }, verdict }) =>
        happened.kind === 'speech' && happened.addressed && happened.phrase === 'seal it'
          ? [{ verdict, phrase: happened.phrase }]
          : [],
      );
      expect(addressed.map(({ verdict }) => verdict)).toEqual(
        addressed.map(({ phrase }) => ({ kind: 'command', phrase, sure: true })),
      );
    }),
  );
});

it('remembers no more calls than a minute holds', () => {
  let state = AT_FIRST;
  for (let i = 0; i < 500; i += 1) {
    const fromMs = i * 5_000;
    state = whileSounding(state, { text: 'Dry it.', fromMs, untilMs: fromMs + 900 }, ATTENTION);
  }
  expect(state.sounding.map((call) => call.fromMs / 5_000)).toEqual(
    Array.from({ length: 13 }, (_, i) => 487 + i),
  );
});
