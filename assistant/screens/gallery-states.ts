/** Invented states, one for each shape a screen takes; what the pictures and the axe check show. */
import { emptyDraft } from './draft.ts';
import { emptyShelf } from './draft-shelf.ts';
import { CHAIR_SAMPLES } from './gallery-chair.ts';
import type { AppState } from './model.ts';

const resting: AppState = {
  page: 'desk',
  ear: { kind: 'off' },
  level: 0.35,
  chair: null,
  desk: {
    draft: emptyDraft(),
    plan: null,
    problems: [],
    examples: [],
    prepared: [],
    cases: [],
    refusedFile: null,
  },
  record: null,
  settings: {
    values: {
      callSign: 'lantern',
      followUpS: 6,
      volume: 0.8,
      pedalKey: 'F13',
      letterKeys: true,
      wakeWord: null,
      shelf: emptyShelf(),
    },
    callSignProblem: null,
    problems: [],
    notice: 'NOTICE',
  },
  notice: null,
  keysShown: false,
};

/** Every state of the gallery by name. */
export const GALLERY: Readonly<Record<string, AppState>> = {
  ...Object.fromEntries(
    Object.entries(CHAIR_SAMPLES).map(([name, { chair, ear }]) => [
      name,
      { ...resting, page: 'chairside' as const, chair, ear },
    ]),
  ),
};
