import { ATTENTION } from '../ear/attention.ts';
import { emptyShelf, shelfDraft } from '../screens/draft-shelf.ts';
import { emptyDraft } from '../screens/draft.ts';
import type { AppState, Settings as ShownSettings } from '../screens/model.ts';
import { NO_REVIEW } from '../screens/review-model.ts';
import type { Settings } from '../store/index.ts';

/** Kept settings as the screen shows them. */
export function shownSettings(kept: Settings): ShownSettings {
  const { wakeWord } = kept;
  return {
    callSign: kept.callSign ?? ATTENTION.callSign,
    followUpS: kept.followUpS,
    volume: kept.volume,
    microphone: kept.microphone,
    pedalKey: kept.pedalKey,
    letterKeys: kept.letterKeys,
    retentionYears: kept.retentionYears,
    wakeWord: {
      accessKey: wakeWord?.accessKey ?? '',
      model: wakeWord?.model.label ?? null,
      keyword: wakeWord !== null && 'label' in wakeWord.keyword ? wakeWord.keyword.label : null,
      builtin: wakeWord !== null && 'builtin' in wakeWord.keyword ? wakeWord.keyword.builtin : '',
      sensitivity: wakeWord?.sensitivity ?? 0.5,
    },
    ownPhrases: kept.ownPhrases,
    shelf: kept.shelf === null ? emptyShelf() : shelfDraft(kept.shelf),
  };
}

/** The app as it starts, with the practice's settings. */
export function firstState(
  kept: Settings,
  examples: AppState['desk']['examples'],
  notice: string,
): AppState {
  const values = shownSettings(kept);
  return {
    page: 'desk',
    ear: { kind: 'off' },
    level: 0,
    chair: null,
    desk: {
      draft: emptyDraft(values.shelf),
      plan: null,
      problems: [],
      examples,
      prepared: [],
      cases: [],
      keeping: { years: kept.retentionYears, past: [], deletions: [], fault: null },
      refusedFile: null,
    },
    record: null,
    checked: null,
    review: NO_REVIEW,
    locked: null,
    settings: {
      values,
      microphones: [],
      callSignProblem: null,
      ownProblems: [],
      problems: [],
      notice,
    },
    room: null,
    notice: null,
    keysShown: false,
  };
}
