import { describe, expect, it } from 'vitest';
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { heldGrammar } from '../../assistant/ear/held-grammar.ts';
import type { Heard, Recogniser } from '../../assistant/ear/port.ts';
import { listenerOn, PHRASES } from '../ear/listener-on.ts';
import { segmentOf, WrittenRecogniser } from '../ear/written-recogniser.ts';

const heard = { decodeMs: 0, why: null, sure: true };

describe('segments through attention and recogniser', () => {
  it('the call sign, a pause, a command, and sleep again', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    expect(await listener.hear(segmentOf('lantern', 1_000, 1_500))).toEqual({
      ...heard,
      kind: 'attention',
      phrase: 'lantern',
      score: 0.9,
      startMs: 1_000,
      endMs: 1_500,
      accepted: false,
    });
    expect(await listener.hear(segmentOf('next step', 3_000, 3_600))).toEqual({
      ...heard,
      kind: 'command',
      phrase: 'next step',
      score: 0.9,
      startMs: 3_000,
      endMs: 3_600,
      accepted: true,
    });
    expect(await listener.hear(segmentOf('next step', 12_000, 12_600))).toEqual({
      ...heard,
      kind: 'ignored',
      phrase: null,
      score: null,
      startMs: 12_000,
      endMs: 12_600,
      accepted: false,
      why: 'nothing in the grammar',
    });
  });

  it('what may be said is made ready before it is, once', async () => {
    const done: string[] = [];
    const listener = listenerOn({
      load: async (grammar) => {
        done.push(grammar);
      },
      hear: async () => {
        done.push('hear');
        return null;
      },
      close: async () => undefined,
    });
    const { callSign, stopPhrases } = ATTENTION;
    const [asleep, awake] = (['addressed', 'open'] as const).map((mode) =>
      heldGrammar(PHRASES, mode, callSign, stopPhrases),
    );
    listener.expect();
    listener.expect();
    await listener.hear(segmentOf('', 0, 900));
    expect(done).toEqual([asleep, awake, asleep, 'hear']);
  });

  it('phrases and call sign change from one segment to the next', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    listener.setCallSign('Beacon');
    listener.setPhrases('#JSGF V1.0; grammar now; public <phrase> = seating;');
    const { kind, phrase } = await listener.hear(segmentOf('beacon seating', 0, 900));
    expect({ kind, phrase }).toEqual({ kind: 'command', phrase: 'seating' });
    expect(() => listener.setCallSign('stop')).toThrow('always stops');
    listener.setCallSign(null);
    expect((await listener.hear(segmentOf('seating', 60_000, 60_900))).kind).toBe('command');
  });

  it('a grammar is composed and loaded once as long as it is the same', async () => {
    const recogniser = new WrittenRecogniser();
    const listener = listenerOn(recogniser);
    await listener.hear(segmentOf('one', 0, 100));
    await listener.hear(segmentOf('two', 5_000, 5_100));
    await listener.hear(segmentOf('lantern', 10_000, 10_100));
    await listener.hear(segmentOf('done', 12_000, 12_100));
    expect(recogniser.loaded).toHaveLength(2);
  });
});

it('prepares the recogniser for both states of attention, before any segment', async () => {
  const recogniser = new WrittenRecogniser();
  const listener = listenerOn(recogniser);
  await listener.prepare();
  expect(recogniser.loaded).toHaveLength(1);
  await listener.hear(segmentOf('lantern done', 0, 500));
  await listener.hear(segmentOf('next step', 2_000, 2_500));
  const [asleep, open, ...rest] = recogniser.loaded;
  expect(open).not.toBe(asleep);
  expect(rest).toEqual([asleep, open]);
});

describe('heard, but not for sure', () => {
  it('after the call sign and in its window it is a command to be asked back', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    const first = await listener.hear(segmentOf('lantern next step?', 0, 900));
    expect(first).toMatchObject({ kind: 'command', phrase: 'next step', sure: false });
    expect(first.accepted).toBe(false);
    const second = await listener.hear(segmentOf('next step?', 3_000, 3_600));
    expect(second).toMatchObject({ kind: 'command', phrase: 'next step', sure: false });
  });

  it('a call sign that may be none calls no attention', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    const sign = await listener.hear(segmentOf('lantern?', 0, 500));
    expect(sign).toMatchObject({ kind: 'ignored', why: 'unclear' });
    expect((await listener.hear(segmentOf('next step', 2_000, 2_600))).kind).toBe('ignored');
  });
});

describe('a pause inside a command', () => {
  it('"not ... done" is not "done"', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    await listener.hear(segmentOf('lantern', 0, 250));
    expect((await listener.hear(segmentOf('not ', 1_000, 1_300))).phrase).toBe(null);
    expect(await listener.hear(segmentOf('done', 1_700, 2_000))).toMatchObject({
      kind: 'command',
      phrase: 'not done',
      startMs: 1_000,
      endMs: 2_000,
    });
  });

  it('three pieces are put together too', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    listener.addressed(0);
    await listener.hear(segmentOf('it ', 1_000, 1_300));
    await listener.hear(segmentOf('is ', 1_700, 2_000));
    const { phrase } = await listener.hear(segmentOf('down', 2_400, 2_700));
    expect(phrase).toBe('it is down');
  });

  it('does not lie in a word: two sounds that together would be one are none', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    await listener.hear(segmentOf('st', 1_000, 1_300));
    const { kind, phrase } = await listener.hear(segmentOf('op', 1_600, 1_900));
    expect([kind, phrase]).toEqual(['ignored', null]);
    expect((await listener.hear(segmentOf('stop', 4_000, 4_300))).phrase).toBe('stop');
  });

  it('after a long pause, or when the whole makes no sense, the last piece stands alone', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    listener.addressed(0);
    await listener.hear(segmentOf('not ', 1_000, 1_300));
    expect((await listener.hear(segmentOf('done', 2_001, 2_300))).phrase).toBe('done');
    await listener.hear(segmentOf('well ', 3_000, 3_300));
    expect((await listener.hear(segmentOf('done', 3_500, 3_800))).phrase).toBe('done');
  });
});

describe('what can go wrong', () => {
  it('a recogniser that fails once is asked again with the next segment', async () => {
    const written = new WrittenRecogniser();
    let failures = 1;
    const recogniser: Recogniser = {
      load: (grammar) => written.load(grammar),
      hear: (pcm) => (failures-- > 0 ? Promise.reject(new Error('died')) : written.hear(pcm)),
      close: () => written.close(),
    };
    const listener = listenerOn(recogniser);
    const first = listener.hear(segmentOf('lantern done', 0, 500));
    const second = listener.hear(segmentOf('lantern next step', 5_000, 5_500));
    await expect(first).rejects.toThrow('died');
    expect((await second).phrase).toBe('next step');
  });

  it('a command understood too late is not obeyed, stop is', async () => {
    let nowMs = 0;
    const written = new WrittenRecogniser();
    const slow: Recogniser = {
      load: (grammar) => written.load(grammar),
      hear(pcm): Promise<Heard | null> {
        nowMs += 4_001;
        return written.hear(pcm);
      },
      close: () => written.close(),
    };
    const listener = listenerOn(slow, () => nowMs);
    expect(await listener.hear(segmentOf('lantern next step', 0, 500))).toMatchObject({
      kind: 'ignored',
      phrase: 'next step',
      accepted: false,
      why: 'too late',
      decodeMs: 4_001,
    });
    expect((await listener.hear(segmentOf('stop', 9_000, 9_500))).accepted).toBe(true);
  });

  it('segments are heard one after another, in the order they came', async () => {
    const order: string[] = [];
    const written = new WrittenRecogniser();
    const recogniser: Recogniser = {
      load: (grammar) => written.load(grammar),
      async hear(pcm) {
        order.push('begin');
        const result = await written.hear(pcm);
        await Promise.resolve();
        order.push('end');
        return result;
      },
      close: () => written.close(),
    };
    const listener = listenerOn(recogniser);
    await Promise.all([
      listener.hear(segmentOf('lantern', 0, 500)),
      listener.hear(segmentOf('done', 1_500, 1_800)),
    ]);
    expect(order).toEqual(['begin', 'end', 'begin', 'end']);
  });
});

describe('a segment that comes if nobody goes on', () => {
  /** What a recogniser is asked, and with what grammar it could be answered. */
  class Asked extends WrittenRecogniser {
    readonly asked: string[] = [];
    #hold: Promise<unknown> = Promise.resolve();

    override async hear(segment: Float32Array): Promise<Heard | null> {
      await this.#hold;
      const found = await super.hear(segment);
      this.asked.push(`hear ${found?.phrase ?? 'nothing'}`);
      return found;
    }

    async hearAhead(segment: Float32Array): Promise<void> {
      this.asked.push(`ahead ${(await super.hear(segment))?.phrase ?? 'nothing'}`);
      if (this.asked.length === 1) throw new Error('died');
    }

    /** Hears nothing until it is kept. */
    hold(until: Promise<unknown>): void {
      this.#hold = until;
    }
  }

  it('is begun under the grammar it would be held to; nothing becomes of it, though it fail', async () => {
    const recogniser = new Asked();
    const listener = listenerOn(recogniser);
    listener.addressed(0);
    listener.hearAhead(segmentOf('next step', 1_000, 1_500));
    listener.hearAhead(segmentOf('done', 9_000, 9_500));
    // Nothing was taken from it: the window is as it was.
    expect((await listener.hear(segmentOf('done', 9_000, 9_500))).phrase).toBeNull();
    expect(recogniser.asked).toEqual(['ahead next step', 'ahead nothing', 'hear nothing']);
  });

  it('is let be where a segment waits already, and where it is too long to be a command', async () => {
    const recogniser = new Asked();
    const listener = listenerOn(recogniser);
    let goOn: () => void = () => undefined;
    recogniser.hold(new Promise<void>((resolve) => (goOn = resolve)));
    const first = listener.hear(segmentOf('lantern next step', 0, 900));
    listener.hearAhead(segmentOf('stop', 1_000, 1_500));
    goOn();
    await first;
    listener.hearAhead(segmentOf('stop', 2_000, 6_100));
    listener.hearAhead(segmentOf('stop', 7_000, 7_500));
    await listener.hear(segmentOf('stop', 7_000, 7_500));
    expect(recogniser.asked).toEqual(['hear lantern next step', 'ahead stop', 'hear stop']);
  });
});

it('our own voice is not obeyed, a person over it is', async () => {
  const listener = listenerOn(new WrittenRecogniser());
  listener.addressed(0);
  listener.sounding({ text: 'Next step: dry it.', fromMs: 1_000, untilMs: 3_000 });
  expect(await listener.hear(segmentOf('next step', 1_000, 1_600))).toMatchObject({
    accepted: false,
    why: 'own voice',
  });
  expect((await listener.hear(segmentOf('stop', 2_500, 2_900))).accepted).toBe(true);
  expect((await listener.hear(segmentOf('next step', 3_400, 3_900))).accepted).toBe(true);
});

it('a pause after the call sign does not part it from its command, though a call sounds', async () => {
  const listener = listenerOn(new WrittenRecogniser());
  listener.sounding({ text: 'Rinse it.', fromMs: 0, untilMs: 5_000 });
  expect(await listener.hear(segmentOf('lantern ', 1_000, 1_400))).toMatchObject({
    kind: 'attention',
  });
  expect(await listener.hear(segmentOf('next step', 1_800, 2_400))).toMatchObject({
    kind: 'command',
    phrase: 'next step',
    startMs: 1_000,
  });
});

it('what is unclear where the call sign may be left out is held to the call sign as well', async () => {
  const written = new WrittenRecogniser();
  const { callSign, stopPhrases } = ATTENTION;
  const open = heldGrammar(PHRASES, 'open', callSign, stopPhrases);
  // The phrases' beginnings crowd the call sign out of its search.
  const crowded: Recogniser = {
    load: (grammar) => written.load(grammar),
    hear: async (pcm) => (written.loaded.at(-1) === open ? null : written.hear(pcm)),
    close: () => written.close(),
  };
  const listener = listenerOn(crowded);
  listener.addressed(0);
  const hearing = await listener.hear(segmentOf('lantern next step', 1_000, 2_200));
  expect(hearing).toMatchObject({ kind: 'command', phrase: 'next step', accepted: true });
  // Nothing that leaves it out is found that way.
  listener.addressed(10_000);
  const bare = await listener.hear(segmentOf('next step', 11_000, 11_800));
  expect(bare).toMatchObject({ kind: 'ignored', accepted: false });
});
