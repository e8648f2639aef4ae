/**
 * What listening costs: processor time in a quiet room, and the memory of the page. Machines differ,
 * and one machine from hour to hour, so what the browser takes for the sound alone is measured beside.
 */
import { expect, it } from 'vitest';
import { ZIRCONIA_CASE } from '../chair/seatings.ts';
import { Operatory } from '../e2e/harness.ts';
import { lookAway } from '../e2e/log.ts';
import { openCase } from '../e2e/open-case.ts';
import { busiestPage, type PageCost } from './processes.ts';
import { takeSoundAlone } from './sound-alone.ts';

const QUIET_S = 20;
const SHARE = 0.05;
const MEMORY_MB = 500;

const shareOfCore = ({ cpuMs }: PageCost): number => cpuMs / (QUIET_S * 1000);

it('listens to a quiet room with at most a twentieth of a core, in at most 500 MB', async () => {
  // A sound file alone, and nobody who writes down what the page plays or shows: what carries a
  // person's voice, records and reads costs the page time of its own.
  const lines = ['case checked', 'history taken', 'equipment checked', 'crown disinfected'];
  const operatory = await Operatory.open({
    talk: {
      utterances: lines.map((line, at) => ({
        atMs: 12_000 + at * 6_000,
        text: `lantern, ${line}`,
        voice: 'americanWoman',
      })),
      noises: [{ kind: 'hiss', snrDb: 35, seed: 3 }],
      tailMs: 240_000,
    },
    room: { recorded: false },
  });
  try {
    await openCase(operatory, ZIRCONIA_CASE);
    await operatory.until('heard', /crown disinfected/u, 90_000);
    // Whatever was called has been said, and the engine has cleared away what it was said with.
    await operatory.page.waitForTimeout(60_000);
    await lookAway(operatory.page);
    const devtools = await operatory.page.context().newCDPSession(operatory.page);
    await devtools.send('Performance.enable');
    const layouts = async (): Promise<number> => {
      const { metrics } = await devtools.send('Performance.getMetrics');
      return metrics.find(({ name }) => name === 'LayoutCount')?.value ?? Number.NaN;
    };
    const drawn = await layouts();
    const listening = await busiestPage(operatory.profile, QUIET_S * 1000);
    const share = shareOfCore(listening);
    const redrawn = (await layouts()) - drawn;
    const megabytes = listening.bytes / 1e6;
    const alone = await takeSoundAlone(operatory.page);
    await alone.waitForTimeout(10_000);
    const least = shareOfCore(await busiestPage(operatory.profile, QUIET_S * 1000));
    process.stdout.write(
      `listening to a quiet room: ${(share * 100).toFixed(1)} % of one core, ` +
        `budget ${SHARE * 100} %, ` +
        `a page that only takes the sound ${(least * 100).toFixed(1)} %; ${Math.round(megabytes)} MB, budget ${MEMORY_MB} MB; ` +
        `laid out ${redrawn} times in ${QUIET_S} s\n`,
    );
    // Nothing changes on the screen of a quiet room.
    expect(redrawn).toBeLessThan(QUIET_S / 2);
    expect(share).toBeLessThanOrEqual(SHARE);
    expect(megabytes).toBeLessThanOrEqual(MEMORY_MB);
  } finally {
    await operatory.close();
  }
});
