/** What the screens can ask for, carried out. */
import type { Actions } from '../screens/model.ts';
import type { Voice } from '../voice/voice.ts';
import { headerOf } from '../session/start.ts';
import { StoreTrouble, type Store } from '../store/index.ts';
import type { Board } from './board.ts';
import type { Chair } from './chair.ts';
import type { Desk } from './desk.ts';
import type { Microphones } from './microphones.ts';
import type { Practice } from './practice.ts';
import type { Review } from './review.ts';
import type { Room } from './room.ts';
import type { Archive } from './archive.ts';
import { readRecord } from './records.ts';

export interface ActionParts {
  readonly board: Board;
  readonly store: Store;
  readonly chair: Chair;
  readonly desk: Desk;
  readonly archive: Archive;
  readonly review: Review;
  readonly practice: Practice;
  readonly microphones: Microphones;
  readonly room: Room;
  readonly voice: Voice;
  /** Lets the page sound; to be called first thing in a click, before anything is waited for. */
  readonly unlock: () => Promise<void>;
  /** Switches the ear on or off. */
  readonly listen: (on: boolean) => Promise<void>;
  /** True while the ear is on. */
  readonly listens: () => boolean;
}

/** Makes the actions; what fails is told in the notice bar, and nothing is lost. */
export function makeActions(parts: ActionParts): Actions {
  const { board, store, chair, desk, archive, review, practice, microphones, room, voice } = parts;
  const tell = (error: unknown): void =>
    board.set({ notice: error instanceof Error ? error.message : String(error) });
  const run = (task: () => Promise<void>): void => {
    task().catch(tell);
  };
  const forReview = (): boolean => board.state.locked?.purpose === 'review';
  return {
    go(page) {
      board.set({ page });
      if (page === 'settings') run(() => microphones.list());
      if (page === 'desk' || page === 'review') run(() => desk.refresh());
    },
    command: (command, via, label) => chair.command(command, via, label),
    typed: (text) => chair.typed(text),
    listen: (on) =>
      run(async () => {
        await parts.unlock();
        await parts.listen(on);
      }),
    checkRoom: (on) => run(() => (on ? room.check() : room.end())),
    showKeys: (on) => board.set({ keysShown: on }),
    dismissNotice: () => board.set({ notice: null }),
    editDraft: (draft) => desk.edit(draft),
    clearDraft: () => desk.clear(),
    loadCase: (file) => run(() => desk.loadCase(file)),
    loadExample: (id) => desk.loadExample(id),
    prepareCase: () => run(() => desk.prepare()),
    loadPrepared: (reference) => run(() => desk.loadPrepared(reference)),
    dropPrepared: (reference) => run(() => desk.dropPrepared(reference)),
    openCase: () =>
      run(async () => {
        const ready = desk.ready();
        if (ready === null) return;
        const unlocked = parts.unlock();
        await room.end();
        // The case first: the ear is held to its phrases, and cannot begin without any.
        await chair.open(headerOf(ready.case, ready.plan, new Date().toISOString()));
        board.set({ page: 'chairside', notice: null });
        await unlocked;
        await parts.listen(true);
      }),
    resumeCase: (id) =>
      run(async () => {
        const unlocked = parts.unlock();
        await room.end();
        await chair.resume(await readRecord(store, id));
        board.set({ page: 'chairside', notice: null });
        await unlocked;
        await parts.listen(true);
      }),
    showRecord: (id) => run(() => archive.show(id)),
    exportRecord: (id) => run(() => desk.exportRecord(id)),
    exportSealed: (passphrase) => run(() => archive.exportSealed(passphrase)),
    importRecord: (file) => run(() => archive.take(file, 'import')),
    keepCutFile: () => run(() => archive.keepCut()),
    checkFile: (file) => run(() => archive.take(file, 'check')),
    unlockFile: (passphrase) => run(() => (forReview() ? review : archive).unlock(passphrase)),
    dismissLockedFile: () => (forReview() ? review : archive).dismissLocked(),
    askRecord: (asking) => archive.ask(asking),
    deleteRecord: (typed, reason) => run(() => archive.remove(typed, reason)),
    exportDeletions: () => run(() => archive.exportDeletions()),
    dismissRefusedFile: () => desk.dismissRefusedFile(),
    reviewFiles: (files) => run(() => review.take(files)),
    reviewRecord: (id) => run(() => review.show(id)),
    reviewKept: () => run(() => review.kept()),
    chooseReviewed: (at) => run(() => review.choose(at)),
    searchReviewed: (query) => review.search(query),
    editFindings: (findings) => review.edit(findings),
    clearReview: () => run(() => review.clear()),
    print: () => globalThis.print(),
    editSettings: (change) =>
      run(async () => {
        await practice.edit(change);
        if (change.microphone === undefined) return;
        await room.end();
        if (parts.listens()) await parts.listen(true);
      }),
    nameMicrophones: () => run(() => microphones.ask()),
    tryVoice: () => voice.say({ id: 'listening' }),
    loadWakeWordFile: (part, file) => run(() => practice.loadWakeWordFile(part, file)),
  };
}

/** Whether trouble means that another tab holds the case, so that it should not be taken up by itself. */
export const isElsewhere = (error: unknown): boolean =>
  error instanceof StoreTrouble && error.kind === 'elsewhere';
