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

const PHRASES = ['cleaner on', 'next step', 'seating', 'yes', 'it is down'];
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

function run(
  moments: readonly Moment[],
  check: (
    state: AttentionState,
    moment: Moment,
    verdict: ReturnType<typeof judge>['verdict'],
  ) => void,
): void {
  let state = AT_FIRST;
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
      const before = state;
      const judged = judge(state, span, { phrase, score: 1 }, ATTENTION);
      state = judged.state;
      check(before, moment, judged.verdict);
    }
  }
}

const sounds = (state: AttentionState, moment: Moment): boolean => {
  const lengthMs = 'lengthMs' in moment.event ? moment.event.lengthMs : 0;
  return state.sounding.some(
    (call) => moment.atMs <= call.untilMs + 350 && moment.atMs + lengthMs >= call.fromMs,
  );
};

it('stop is always a command, whatever went before and whatever sounds', () => {
  fc.assert(
    fc.property(history, (moments) => {
      run(moments, (_, { event: happened }, verdict) => {
        if (happened.kind === 'stop') expect(verdict).toEqual({ kind: 'command', phrase: 'stop' });
      });
    }),
  );
});

it('no bare phrase is ever a command while a call sounds or its echo lasts', () => {
  fc.assert(
    fc.property(history, (moments) => {
      run(moments, (before, moment, verdict) => {
        const bare = moment.event.kind === 'speech' && !moment.event.addressed;
        if (bare && sounds(before, moment)) expect(verdict.kind).toBe('ignored');
      });
    }),
  );
});

it('a bare phrase is a command only within eight seconds of a reason', () => {
  fc.assert(
    fc.property(history, (moments) => {
      let reasonMs = -Infinity;
      let asked: readonly number[] = [];
      run(moments, (before, moment, verdict) => {
        asked = before.sounding.filter((call) => call.question).map((call) => call.untilMs);
        const woken = moments.filter((m) => m.event.kind === 'woken' && m.atMs <= moment.atMs);
        const last = Math.max(reasonMs, ...asked, ...woken.map((m) => m.atMs));
        const { event: happened } = moment;
        if (happened.kind === 'speech' && !happened.addressed && verdict.kind === 'command')
          expect(moment.atMs - last).toBeLessThanOrEqual(8_000);
        if (verdict.kind !== 'ignored' && 'lengthMs' in happened)
          reasonMs = Math.max(reasonMs, moment.atMs + happened.lengthMs);
      });
    }),
  );
});

it('an addressed phrase is always a command', () => {
  fc.assert(
    fc.property(history, (moments) => {
      run(moments, (_, { event: happened }, verdict) => {
        if (happened.kind === 'speech' && happened.addressed)
          expect(verdict).toEqual({ kind: 'command', phrase: happened.phrase });
      });
    }),
  );
});

it('remembers no more calls than a minute holds', () => {
  fc.assert(
    fc.property(history, (moments) => {
      run(moments, (state, { atMs }) => {
        for (const call of state.sounding)
          expect(atMs - call.untilMs).toBeLessThan(60_000 + 40 * 6_000);
      });
      let state = AT_FIRST;
      for (let i = 0; i < 500; i += 1)
        state = whileSounding(
          state,
          { text: 'Dry it.', fromMs: i * 5_000, untilMs: i * 5_000 + 900 },
          ATTENTION,
        );
      expect(state.sounding.length).toBe(13);
    }),
    { numRuns: 5 },
  );
});
