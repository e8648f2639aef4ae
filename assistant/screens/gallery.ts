/**
 * Development page: shows the state named in the address's hash, `#chair-step`; `#live` is the
 * chairside screen on the real machines. The desk's form works. Not part of the build.
 */
import { GALLERY, judged } from './gallery-states.ts';
import { LiveChair } from './gallery-live.ts';
import type { Actions, AppState } from './model.ts';
import { show } from './render.ts';
import { watchKeys } from './watch-keys.ts';

const name = decodeURIComponent(location.hash.slice(1));
const chair = name === 'live' ? new LiveChair() : null;
let state: AppState | undefined =
  GALLERY[name] ?? (chair === null ? undefined : GALLERY['chair-step']);

const root = document.getElementById('app');

const log =
  (what: string) =>
  (...values: readonly unknown[]): void => {
    console.info(what, JSON.stringify(values));
  };

function change(part: Partial<AppState>): void {
  if (state === undefined) return;
  state = { ...state, ...part };
  draw();
}

const actions: Actions = {
  go: (page) => change({ page }),
  command: (command, via, label) => {
    log('command')(command, via, label);
    chair?.give(command, via, label, performance.now());
    draw();
  },
  typed: (text) => {
    chair?.type(text, performance.now());
    draw();
  },
  listen: log('listen'),
  showKeys: (keysShown) => change({ keysShown }),
  dismissNotice: () => change({ notice: null }),
  editDraft: (draft) => {
    if (state !== undefined) change({ desk: { ...state.desk, ...judged(draft) } });
  },
  clearDraft: log('clearDraft'),
  loadCase: log('loadCase'),
  loadExample: log('loadExample'),
  prepareCase: log('prepareCase'),
  loadPrepared: log('loadPrepared'),
  dropPrepared: log('dropPrepared'),
  openCase: log('openCase'),
  resumeCase: log('resumeCase'),
  showRecord: log('showRecord'),
  exportRecord: log('exportRecord'),
  importRecord: log('importRecord'),
  dismissRefusedFile: () => {
    if (state !== undefined) change({ desk: { ...state.desk, refusedFile: null } });
  },
  print: log('print'),
  editSettings: (values) => {
    if (state === undefined) return;
    change({ settings: { ...state.settings, values: { ...state.settings.values, ...values } } });
  },
  tryVoice: log('tryVoice'),
  loadWakeWordFile: log('loadWakeWordFile'),
};

function draw(): void {
  if (root === null || state === undefined) return;
  if (chair !== null) state = { ...state, chair: chair.at(performance.now()) };
  show(state, actions, root);
}

function index(): void {
  root?.replaceChildren(
    ...[...Object.keys(GALLERY), 'live'].map((known) => {
      const link = document.createElement('a');
      link.href = `#${known}`;
      link.textContent = `${known} `;
      return link;
    }),
  );
}

addEventListener('hashchange', () => location.reload());
if (state === undefined) {
  index();
} else {
  const first = state;
  watchKeys(globalThis.window, () => state ?? first, actions);
  draw();
  if (chair !== null) setInterval(draw, 200);
}
