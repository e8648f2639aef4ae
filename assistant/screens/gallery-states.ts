/** Invented states, one for each shape a screen takes; what the pictures and the axe check show. */
import { checkCase, makePlan } from '../../machines/plan/index.ts';
import { candidateOf, type CaseDraft, draftOf, emptyDraft } from './draft.ts';
import { GALLERY_CASE, GALLERY_HEADER, galleryEntries } from './gallery-case.ts';
import { CHAIR_SAMPLES } from './gallery-chair.ts';
import { REVIEWS } from './gallery-review.ts';
import { NO_REVIEW } from './review-model.ts';
import type {
  AppState,
  ChainView,
  CheckedFile,
  DeletionRow,
  DeskState,
  RecordState,
} from './model.ts';

const draft = draftOf(GALLERY_CASE);

/** The plan or the problems of a draft, as the app shows them. */
export function judged(of: CaseDraft): Pick<DeskState, 'draft' | 'plan' | 'problems'> {
  const checked = checkCase(candidateOf(of));
  return checked.ok
    ? { draft: of, plan: makePlan(checked.case), problems: [] }
    : { draft: of, plan: null, problems: checked.problems };
}

const cases: DeskState['cases'] = [
  {
    caseId: 'a',
    reference: 'DEMO-36',
    invented: true,
    opened: '2031-04-09T12:00:00.000Z',
    teeth: ['36', '14'],
    entries: 41,
    closed: false,
    lastWall: '2031-04-09T12:20:00.000Z',
  },
  {
    caseId: 'b',
    reference: 'DEMO-21',
    invented: true,
    opened: '2031-04-08T09:30:00.000Z',
    teeth: ['21'],
    entries: 77,
    closed: true,
    lastWall: '2031-04-08T10:05:00.000Z',
  },
];

const desk: DeskState = {
  ...judged(emptyDraft(draft.shelf)),
  examples: [
    { id: 'zirconia', title: 'Zirconia, lower molar' },
    { id: 'disilicate', title: 'Lithium disilicate, upper premolar' },
  ],
  prepared: [],
  cases: [],
  keeping: { years: null, past: [], deletions: [], fault: null },
  refusedFile: null,
};

const resting: AppState = {
  page: 'desk',
  ear: { kind: 'off' },
  level: 0.35,
  chair: null,
  desk,
  record: null,
  checked: null,
  review: NO_REVIEW,
  locked: null,
  settings: {
    values: {
      callSign: 'lantern',
      followUpS: 8,
      volume: 0.8,
      microphone: null,
      pedalKey: 'F13',
      letterKeys: true,
      retentionYears: 10,
      wakeWord: { accessKey: '', model: null, keyword: null, builtin: '', sensitivity: 0.5 },
      ownPhrases: [
        { words: 'soap on', means: 'cleaner on' },
        { words: 'saline on', means: 'silane on' },
      ],
      shelf: draft.shelf,
    },
    microphones: [],
    callSignProblem: null,
    ownProblems: [null, null],
    problems: [],
    notice: 'The licences of what is built in are listed in NOTICE.',
  },
  room: null,
  notice: null,
  keysShown: false,
};

const recorded = (chain: ChainView, more: Partial<RecordState> = {}): AppState => ({
  ...resting,
  page: 'record',
  record: {
    id: '5e'.repeat(32),
    header: GALLERY_HEADER,
    entries: galleryEntries(),
    closing: null,
    chain,
    cutAfter: null,
    head: 'a7'.repeat(32),
    fingerprint: null,
    keptUntil: '2041-04-09',
    deletedBefore: [],
    asking: null,
    problem: null,
    ...more,
  },
});

const deletion: DeletionRow = {
  n: 1,
  wall: '2031-04-08T10:05:00.000Z',
  reason: 'made-in-error',
  entries: 3,
};

const checked: CheckedFile = {
  name: 'demo-21.jsonl',
  header: GALLERY_HEADER,
  entries: galleryEntries().slice(0, 6),
  chain: { kind: 'whole', signed: true },
  line: null,
  seal: 'checkpoint',
  fingerprint: '3c'.repeat(32),
  own: false,
};

const wrong: CaseDraft = {
  ...draft,
  reference: '',
  units: draft.units.map((unit, at) =>
    at === 0 ? { ...unit, tooth: '', heightMm: '0', cement: 'no such cement' } : unit,
  ),
};

const chairs: Readonly<Record<string, AppState>> = Object.fromEntries(
  Object.entries(CHAIR_SAMPLES).map(([name, { chair, ear }]) => [
    name,
    { ...resting, page: 'chairside' as const, chair, ear },
  ]),
);

/** Every state of the gallery by name. */
export const GALLERY: Readonly<Record<string, AppState>> = {
  ...chairs,
  ...(chairs['chair-step'] === undefined
    ? {}
    : {
        'chair-keys': {
          ...chairs['chair-step'],
          keysShown: true,
          notice: 'Records are kept in memory only. Export this case before you close the page.',
        },
      }),
  'desk-blank': resting,
  'desk-room-reading': {
    ...resting,
    room: { stage: 'reading', say: 'saliva on it', done: 1, all: 3, leftS: 6 },
  },
  'desk-room-fair': {
    ...resting,
    room: {
      stage: 'done',
      verdict: 'fair',
      marginDb: 11,
      phrases: [
        { words: 'cleaner on', outcome: 'right' },
        { words: 'saliva on it', outcome: 'nothing' },
        { words: 'mixing now', outcome: 'right' },
      ],
      remedies: [
        'Speech hardly stands above the room: wear the microphone nearer to the mouth, or turn the suction away from it.',
      ],
    },
  },
  'desk-plan': {
    ...resting,
    desk: {
      ...desk,
      ...judged(draft),
      cases,
      prepared: [{ reference: 'DEMO-26', invented: true, teeth: ['26'] }],
    },
  },
  'desk-problems': {
    ...resting,
    desk: {
      ...desk,
      ...judged(wrong),
      cases,
      refusedFile: {
        name: 'demo-21.jsonl',
        reason: 'It was changed after it was written.',
        entry: 17,
        cutAfter: null,
      },
    },
  },
  'desk-cut': {
    ...resting,
    desk: {
      ...desk,
      ...judged(draft),
      cases: cases.map((one, i) =>
        i === 0 ? { ...one, closed: false, cutAfter: one.entries } : one,
      ),
      refusedFile: {
        name: 'demo-21.jsonl',
        reason: 'Entry 12: This line has no line end: the file was cut off in it, or after it.',
        entry: null,
        cutAfter: 11,
      },
    },
  },
  'desk-keeping': {
    ...resting,
    desk: {
      ...desk,
      ...judged(draft),
      cases,
      keeping: { years: 1, past: ['b'], deletions: [deletion], fault: null },
    },
    locked: { name: 'demo-21.jsonl.jwe', purpose: 'import', problem: null },
  },
  'check-whole': {
    ...resting,
    page: 'check',
    checked,
    locked: {
      name: 'demo-21.jsonl.jwe',
      purpose: 'check',
      problem: 'This passphrase does not open the file.',
    },
  },
  'check-broken': {
    ...resting,
    page: 'check',
    checked: {
      ...checked,
      chain: { kind: 'broken', entry: 7, reason: 'Entry 7 was changed.' },
      line: 8,
      seal: null,
      fingerprint: null,
    },
  },
  ...Object.fromEntries(
    Object.entries(REVIEWS).map(([name, review]) => [
      name,
      { ...resting, page: 'review' as const, review, desk: { ...desk, cases } },
    ]),
  ),
  settings: { ...resting, page: 'settings' },
  'settings-microphone-away': {
    ...resting,
    page: 'settings',
    settings: {
      ...resting.settings,
      values: {
        ...resting.settings.values,
        microphone: { id: 'b', label: 'Headset at chair 2 (invented)' },
      },
      microphones: [{ id: 'a', label: 'Built-in microphone (invented)' }],
    },
  },
  'record-passphrase': recorded({ kind: 'whole', signed: false }, { asking: 'passphrase' }),
  'record-deletion': recorded(
    { kind: 'whole', signed: false },
    { asking: 'deletion', problem: 'This is not its case reference.', deletedBefore: [deletion] },
  ),
  'record-whole': recorded({ kind: 'whole', signed: false }),
  'record-broken': recorded({
    kind: 'broken',
    entry: 7,
    reason: 'Its digest does not fit the entry before it.',
  }),
};
