import { describe, expect, it } from 'vitest';
import type { Reading } from '../../assistant/ear/port.ts';
import { listenerOn } from '../ear/listener-on.ts';
import { segmentOf, WrittenRecogniser } from '../ear/written-recogniser.ts';

describe('a phrase that means nothing now', () => {
  const OUT_OF_TURN =
    '#JSGF V1.0; grammar now; public <phrase> = cleaner on; <elsewhere> = cleaner off;';

  it('is heard as what it is and changes nothing', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    listener.setPhrases(OUT_OF_TURN);
    expect(await listener.hear(segmentOf('lantern cleaner off', 0, 900))).toMatchObject({
      kind: 'ignored',
      phrase: 'cleaner off',
      accepted: false,
      why: 'out of turn',
    });
    // Seatcall was spoken to: what comes next needs no call sign.
    expect(await listener.hear(segmentOf('cleaner on', 2_000, 2_700))).toMatchObject({
      kind: 'command',
      phrase: 'cleaner on',
      accepted: true,
    });
  });

  it('is asked back as one that does, where that comes too close to tell', async () => {
    const written = new WrittenRecogniser();
    let others: readonly Reading[] = [];
    const listener = listenerOn({
      load: (grammar) => written.load(grammar),
      hear: async (pcm) => {
        const found = await written.hear(pcm);
        return found && { ...found, others };
      },
      close: () => written.close(),
    });
    listener.setPhrases(OUT_OF_TURN);
    // So sure that the call sign would do; still it is not what was heard first.
    others = [
      { phrase: 'lantern', score: 0.8 },
      { phrase: 'lantern cleaner on', score: 0.7 },
    ];
    expect(await listener.hear(segmentOf('lantern cleaner off', 0, 900))).toMatchObject({
      kind: 'command',
      phrase: 'cleaner on',
      score: 0.7,
      sure: false,
      accepted: false,
    });
    // A phrase of now is not doubted for one that means nothing.
    others = [{ phrase: 'lantern cleaner off', score: 0.9 }];
    const sure = await listener.hear(segmentOf('lantern cleaner on', 2_000, 2_900));
    expect(sure).toMatchObject({ phrase: 'cleaner on', accepted: true });
    // Our own voice is not asked about.
    listener.sounding({ text: 'Cleaner on next.', fromMs: 20_000, untilMs: 30_000 });
    others = [{ phrase: 'cleaner on', score: 0.9 }];
    const echo = await listener.hear(segmentOf('lantern cleaner off', 21_000, 22_000));
    expect(echo).toMatchObject({ kind: 'ignored', why: 'out of turn', phrase: 'cleaner off' });
  });

  it('does not make a phrase of now doubtful, as another of now does where neither is sure', async () => {
    const phrases =
      '#JSGF V1.0; grammar now; public <phrase> = gel on | gel is on | dam on | glue it | press it; <elsewhere> = dam off;';
    const taken = async (words: string, others: readonly string[]): Promise<boolean> => {
      const listener = listenerOn({
        load: async () => undefined,
        hear: async () => ({
          phrase: `lantern ${words.replace('?', '')}`,
          score: words.endsWith('?') ? 0.3 : 0.9,
          sure: !words.endsWith('?'),
          others: others.map((other) => ({ phrase: `lantern ${other}`, score: 0.3 })),
        }),
        close: async () => undefined,
      });
      listener.setPhrases(phrases);
      return (await listener.hear(segmentOf(words, 0, 900))).accepted;
    };
    expect(await taken('gel on?', [])).toBe(true);
    expect(await taken('gel on?', ['dam off', 'gel is on'])).toBe(true);
    expect(await taken('gel on?', ['gel is on', 'dam on'])).toBe(false);
    expect(await taken('gel on', ['dam on'])).toBe(true);
    // Of two phrases of the practice's own nobody knows here whether they are one command.
    expect(await taken('glue it?', ['press it'])).toBe(false);
  });

  it('may be the beginning of one that does', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    listener.setPhrases(
      '#JSGF V1.0; grammar now; public <phrase> = seat the crown; <elsewhere> = seat;',
    );
    const first = await listener.hear(segmentOf('lantern seat ', 0, 900));
    expect(first.why).toBe('out of turn');
    const whole = await listener.hear(segmentOf('the crown', 1_300, 1_900));
    expect(whole).toMatchObject({ kind: 'command', phrase: 'seat the crown' });
  });

  it('is not needed to stop', async () => {
    const listener = listenerOn(new WrittenRecogniser());
    listener.setPhrases('#JSGF V1.0; grammar now; public <phrase> = done; <elsewhere> = stop;');
    expect((await listener.hear(segmentOf('stop', 0, 400))).kind).toBe('command');
  });
});
