/**
 * Development page: shows the state named in the address's hash, `#chair-step`. Actions are put on
 * the console. Not part of the build.
 */
import { GALLERY } from './gallery-states.ts';
import type { Actions } from './model.ts';
import { show } from './render.ts';

const log =
  (name: string) =>
  (...values: readonly unknown[]): void => {
    console.info(name, JSON.stringify(values));
  };

const actions: Actions = {
  go: log('go'),
  command: log('command'),
  typed: log('typed'),
  listen: log('listen'),
  showKeys: log('showKeys'),
  editDraft: log('editDraft'),
  dismissNotice: log('dismissNotice'),
  prepareCase: log('prepareCase'),
  loadPrepared: log('loadPrepared'),
  dropPrepared: log('dropPrepared'),
  clearDraft: log('clearDraft'),
  loadCase: log('loadCase'),
  loadExample: log('loadExample'),
  openCase: log('openCase'),
  resumeCase: log('resumeCase'),
  showRecord: log('showRecord'),
  exportRecord: log('exportRecord'),
  importRecord: log('importRecord'),
  dismissRefusedFile: log('dismissRefusedFile'),
  print: log('print'),
  editSettings: log('editSettings'),
  tryVoice: log('tryVoice'),
  loadWakeWordFile: log('loadWakeWordFile'),
};

function draw(): void {
  const name = decodeURIComponent(location.hash.slice(1));
  const state = GALLERY[name];
  const root = document.getElementById('app');
  if (root === null) return;
  if (state === undefined) {
    root.replaceChildren(
      ...Object.keys(GALLERY).map((known) => {
        const link = document.createElement('a');
        link.href = `#${known}`;
        link.textContent = `${known} `;
        return link;
      }),
    );
    return;
  }
  show(state, actions, root);
}

addEventListener('hashchange', () => {
  location.reload();
});
draw();
