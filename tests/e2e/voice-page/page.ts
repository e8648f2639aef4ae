/** The voice by itself: real clips, howler, the worker clock. */
import type { Call } from '../../../machines/contract/index.ts';
import { loadClips } from '../../../assistant/voice/clips.ts';
import { createHowlerPlayer } from '../../../assistant/voice/howler-player.ts';
import { startMetronome } from '../../../assistant/voice/metronome.ts';
import { createVoice } from '../../../assistant/voice/voice.ts';

/** What the test sees of the voice; times are `Date.now()`. */
export interface VoicePage {
  /** Sets calls due so many milliseconds from now; gives each one's due time. */
  schedule(calls: readonly { readonly inMs: number; readonly call: Call }[]): readonly number[];
  say(call: Call): void;
  readonly log: { readonly text: string; readonly atMs: number; readonly what: string }[];
  readonly problems: string[];
  /** How late the page's own timer is for a wait of 250 ms. */
  ownTimerLateMs(): Promise<number>;
}

const clock = startMetronome();
const problems: string[] = [];
// A clip that the manifest names but the server has not: a call must go on without it.
const clips = new Map(await loadClips('/clips/'));
clips.set('Noted.', { url: '/clips/none.wav', ms: 500 });
const player = createHowlerPlayer(clips, clock, (message) => problems.push(message));
const log: VoicePage['log'] = [];
const voice = createVoice({
  player,
  clock,
  listener: {
    onStart: ({ text }) => log.push({ text, atMs: Date.now(), what: 'start' }),
    onEnd: ({ text }, whole) => log.push({ text, atMs: Date.now(), what: whole ? 'end' : 'cut' }),
  },
});
const voicePage: VoicePage = {
  schedule(calls) {
    const shift = Date.now() - clock.now();
    const set = calls.map(({ inMs, call }) => ({ call, dueMs: clock.now() + inMs }));
    voice.schedule(set);
    return set.map(({ dueMs }) => dueMs + shift);
  },
  say: (call) => {
    voice.say(call);
  },
  log,
  problems,
  ownTimerLateMs: () =>
    new Promise((resolve) => {
      const from = performance.now();
      setTimeout(() => resolve(performance.now() - from - 250), 250);
    }),
};
document.querySelector('button')?.addEventListener('click', () => void player.unlock());
Object.assign(globalThis, { voicePage });
