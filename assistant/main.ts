/** The page: adapters wired to ports, and nothing else. */
import notice from '../NOTICE.md?raw';
import { CaseFile } from '../machines/contract/index.ts';
import disilicate from './examples/disilicate-24.json';
import twoUnits from './examples/two-units.json';
import zirconia from './examples/zirconia-46.json';
import { isElsewhere, makeActions } from './app/actions.ts';
import { Archive } from './app/archive.ts';
import { Board } from './app/board.ts';
import { Chair } from './app/chair.ts';
import { Desk } from './app/desk.ts';
import { firstState } from './app/first-state.ts';
import { earView, runsOut, TroubleCalls } from './app/hearing-state.ts';
import { Listening, type ListeningSettings } from './app/listening.ts';
import { Microphones } from './app/microphones.ts';
import { Practice } from './app/practice.ts';
import { readRecord } from './app/records.ts';
import { Review } from './app/review.ts';
import { openReviewWorker, ReviewWorker } from './app/review-worker.ts';
import { Room } from './app/room.ts';
import { Ticker } from './app/ticker.ts';
import { CLIPS_BASE } from './assets.ts';
import type { Actions } from './screens/model.ts';
import { show } from './screens/render.ts';
import { watchKeys } from './screens/watch-keys.ts';
import { openStore, type Store } from './store/index.ts';
import { loadClips } from './voice/clips.ts';
import { createHowlerPlayer } from './voice/howler-player.ts';
import { startMetronome } from './voice/metronome.ts';
import { createVoice, type Spoken } from './voice/voice.ts';

/** An unfinished case younger than this is gone on with by itself after a crash, ms. */
const STILL_WARM_MS = 2 * 60 * 60 * 1000;
/** The level meter moves no oftener than this: each move draws the page, 30 a second cost more than hearing, ms. */
const LEVEL_MS = 120;
/** And only by so much, of 1: a quiet room's hiss would draw the page all day. */
const LEVEL_STEP = 0.04;
/** The dwells on screen count on this often, ms. */
const TICK_MS = 200;

const EXAMPLES = new Map(
  [
    { id: 'zirconia-46', title: 'Zirconia on a lower molar', file: zirconia },
    { id: 'disilicate-24', title: 'Lithium disilicate on an upper premolar', file: disilicate },
    { id: 'two-units', title: 'Both in one appointment', file: twoUnits },
  ].map(({ id, title, file }) => [id, { title, case: CaseFile.parse(file) }]),
);

const pageRoot = (): HTMLElement => {
  const found = document.getElementById('app');
  if (found === null) throw new Error('The page has no #app');
  return found;
};

/** What is to be said before the board is there. */
const early: string[] = [];
const exampleRows = [...EXAMPLES].map(([id, { title }]) => ({ id, title }));
const root = pageRoot();
const clock = startMetronome();
// Before anything is waited for: a start is as long as the recogniser takes to load.
const listening = new Listening(clock);
const clips = loadClips(CLIPS_BASE);
const store: Store = await openStore((trouble) => early.push(trouble.message));
const { settings: kept, dropped } = await store.settings();

const board = new Board(firstState(kept, exampleRows, notice), (state) => {
  show(state, actions, root);
  ticker.wake();
});
const tell = (sentence: string): void => board.set({ notice: sentence });

const player = createHowlerPlayer(await clips, clock, (message) => console.warn(message));
player.setVolume(kept.volume);

const voice = createVoice({
  player,
  clock,
  listener: {
    onStart: (spoken: Spoken) => {
      listening.speaking(spoken);
      chair.saying(spoken.call);
    },
    onEnd: (spoken: Spoken) => listening.speaking(spoken),
  },
});

const chair = new Chair({
  store,
  clock,
  voice,
  listening,
  ownPhrases: () => practice.ownPhrases,
  onChange: (state) => board.set({ chair: state }),
  notice: tell,
});

const troubleCalls = new TroubleCalls();
/** The loudest frame since the meter last moved, and when that was. */
let [loudest, levelShownMs] = [0, Number.NEGATIVE_INFINITY];
listening.attend({
  onHeard: (hearing) => void chair.heard(hearing),
  onSpeech: () => voice.ready(),
  onTrouble: (found) => {
    const call = troubleCalls.callFor(found, clock.now());
    if (call !== null) voice.say(call);
  },
  onChange: () => board.set({ ear: earView(listening.state, clock.now()) }),
  onLevel: (level) => {
    loudest = Math.max(loudest, level);
    const now = clock.now();
    if (now - levelShownMs < LEVEL_MS) return;
    const isSeen = board.state.page === 'chairside' || room.running;
    if (isSeen && Math.abs(loudest - board.state.level) >= LEVEL_STEP)
      board.set({ level: loudest });
    [levelShownMs, loudest] = [now, 0];
  },
});

const practice = new Practice(board, store, kept, () => {
  player.setVolume(board.state.settings.values.volume);
});
const exampleCases = new Map([...EXAMPLES].map(([id, example]) => [id, example.case]));
const desk = new Desk(board, store, exampleCases);

function hearingSettings(): ListeningSettings {
  const { callSign, followUpS, microphone } = board.state.settings.values;
  return { callSign, followUpMs: followUpS * 1000, wakeWord: practice.wakeWord, microphone };
}

const listen = (on: boolean): Promise<void> =>
  on ? listening.start(hearingSettings()) : listening.stop();

const room = new Room({ board, listening, clock, settings: hearingSettings });

const reviewWorker = new ReviewWorker(openReviewWorker);

const actions: Actions = makeActions({
  board,
  store,
  chair,
  desk,
  archive: new Archive(board, store, desk),
  review: new Review(board, store, (request) => reviewWorker.ask(request)),
  practice,
  microphones: new Microphones(board),
  room,
  voice,
  listen,
  listens: () => listening.on,
  unlock: player.unlock,
});

/** After a crash or a reload in mid-case, the case goes on without a touch. */
async function takeUpWarmCase(): Promise<void> {
  const [last] = await store.unfinished();
  if (last === undefined || Date.now() - Date.parse(last.lastWall) > STILL_WARM_MS) return;
  await chair.resume(await readRecord(store, last.caseId));
  board.set({ page: 'chairside' });
  const { state } = await navigator.permissions.query({ name: 'microphone' });
  if (state === 'granted') await listen(true);
}

watchKeys(window, () => board.state, actions);
const ticker = new Ticker(TICK_MS, () => {
  if (document.hidden || board.state.page !== 'chairside') return false;
  const ear = earView(listening.state, clock.now());
  if (JSON.stringify(ear) !== JSON.stringify(board.state.ear)) board.set({ ear });
  return [chair.tick(), runsOut(ear)].includes(true);
});
document.addEventListener('visibilitychange', () => ticker.wake());

await desk.refresh();
if (early.length > 0) tell(early.join(' '));
else if (dropped.length > 0)
  tell(`Settings that no longer fit were set back: ${dropped.join(', ')}.`);
await takeUpWarmCase().catch((error: unknown) => {
  if (!isElsewhere(error)) tell(error instanceof Error ? error.message : String(error));
});
