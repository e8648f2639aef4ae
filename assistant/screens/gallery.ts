/**
 * Development page: shows the state named in the address's hash, `#chair-step`; `#live` is the
 * chairside screen on the real machines. The desk's form works. Not part of the build.
 */
import { html, render, type TemplateResult } from 'lit';
import { GALLERY, judged } from './gallery-states.ts';
import { LiveChair } from './gallery-live.ts';
import type { Actions, AppState } from './model.ts';
import { show } from './render.ts';
import { watchKeys } from './watch-keys.ts';

let chair: LiveChair | null = null;
let state: AppState | undefined;

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
  checkRoom: log('checkRoom'),
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
  exportSealed: log('exportSealed'),
  checkFile: log('checkFile'),
  unlockFile: log('unlockFile'),
  dismissLockedFile: () => change({ locked: null }),
  askRecord: (asking) => {
    if (state?.record) change({ record: { ...state.record, asking, problem: null } });
  },
  deleteRecord: log('deleteRecord'),
  exportDeletions: log('exportDeletions'),
  keepCutFile: log('keepCutFile'),
  importRecord: log('importRecord'),
  dismissRefusedFile: () => {
    if (state !== undefined) change({ desk: { ...state.desk, refusedFile: null } });
  },
  reviewFiles: log('reviewFiles'),
  reviewRecord: log('reviewRecord'),
  reviewKept: log('reviewKept'),
  chooseReviewed: log('chooseReviewed'),
  searchReviewed: log('searchReviewed'),
  editFindings: log('editFindings'),
  clearReview: log('clearReview'),
  print: log('print'),
  editSettings: (values) => {
    if (state === undefined) return;
    change({ settings: { ...state.settings, values: { ...state.settings.values, ...values } } });
  },
  nameMicrophones: log('nameMicrophones'),
  tryVoice: log('tryVoice'),
  loadWakeWordFile: log('loadWakeWordFile'),
};

function draw(): void {
  if (root === null) return;
  if (state === undefined) {
    render(index(), root);
    return;
  }
  if (chair !== null) state = { ...state, chair: chair.at(performance.now()) };
  show(state, actions, root);
}

/** The names of all states, as links. */
function index(): TemplateResult {
  return html`${[...Object.keys(GALLERY), 'live'].map((name) => html`<a href=${`#${name}`}>${name}</a> `)}`;
}

/** Shows what the address names. */
function turn(): void {
  const name = decodeURIComponent(location.hash.slice(1));
  chair = name === 'live' ? new LiveChair() : null;
  state = GALLERY[chair === null ? name : 'chair-step'];
  if (root !== null) root.dataset['shown'] = name;
  draw();
}

const [resting] = Object.values(GALLERY);
if (resting !== undefined) watchKeys(globalThis.window, () => state ?? resting, actions);
addEventListener('hashchange', turn);
setInterval(() => {
  if (chair !== null) draw();
}, 200);
turn();
