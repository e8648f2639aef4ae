/** Invented cases, and a record made of one by the machines themselves. */
import { advance, initialState, opening } from '../../machines/conduct/index.ts';
import {
  CaseFile,
  type CaseInput,
  type Command,
  type Entry,
  type Header,
  type Way,
} from '../../machines/contract/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { append, headAfter, makeHeader, openRecord } from '../../machines/record/index.ts';

const invented = {
  format: 'seatcall-case/1',
  reference: 'DEMO-46-15',
  invented: true,
  team: 'assisted',
  roomC: 24,
  units: [
    {
      tooth: '46',
      kind: 'crown',
      material: 'zirconia-3y',
      thicknessMm: 1,
      substrate: 'dentin',
      prep: { heightMm: 4.5, convergenceDeg: 12, widthMm: 10 },
      provisionalCement: 'non-eugenol',
      intaglioFromLab: 'abraded',
      isolation: 'dam',
      cement: 'adhesive resin',
    },
    {
      tooth: '15',
      kind: 'crown',
      material: 'lithium-disilicate',
      translucency: 'high',
      thicknessMm: 1.5,
      substrate: 'dentin',
      prep: { heightMm: 3, convergenceDeg: 26, widthMm: 7 },
      provisionalCement: 'non-eugenol',
      intaglioFromLab: 'untreated',
      fitPaste: true,
      isolation: 'rolls',
      cement: 'adhesive resin',
    },
  ],
  shelf: {
    abrasion: { particleUm: 50, bar: 2 },
    cleaner: {
      label: 'alkaline zirconia-suspension cleaner',
      lot: 'INV-01',
      ifu: { minS: 20, targetS: 20, maxS: 60 },
    },
    hydrofluoricAcid: { label: 'porcelain etch 5 %', percent: 5 },
    phosphoricAcid: { label: 'phosphoric acid 37 %' },
    silane: { label: 'silane' },
    phosphatePrimer: { label: '10-MDP primer', lot: 'INV-02', expires: '2031-04-30' },
    adhesive: { label: 'universal adhesive' },
    cements: [
      { label: 'adhesive resin', class: 'adhesive-resin-dual', workingS: 180, settingS: 360 },
      { label: 'self-adhesive resin', class: 'self-adhesive-resin', carriesPhosphate: true },
    ],
    light: { mwCm2: 1200 },
  },
} as const satisfies CaseInput;

/** The invented case of the gallery. */
export const GALLERY_CASE = CaseFile.parse(invented);
export const GALLERY_PLAN = makePlan(GALLERY_CASE);

const OPENED = '2031-04-09T12:00:00.000Z';

export const GALLERY_HEADER: Header = makeHeader({
  invented: true,
  software: 'seatcall gallery',
  opened: OPENED,
  case: GALLERY_CASE,
  plan: GALLERY_PLAN,
});

/** What is said in the invented record: seconds after opening, way in, words, command. */
const TALK: readonly (readonly [number, Way, string, Command])[] = [
  [4, 'voice', 'done', { type: 'finish' }],
  [15, 'voice', 'done', { type: 'finish' }],
  [21, 'key', '', { type: 'next' }],
  [30, 'voice', 'skip', { type: 'skip' }],
  [33, 'voice', 'already done', { type: 'reason', reason: 'already-done' }],
  [36, 'voice', 'yes', { type: 'confirm' }],
  [40, 'voice', 'trying in', { type: 'begin', step: 'try-in' }],
  [52, 'voice', 'cleaner on', { type: 'begin', step: 'cleaner' }],
  [60, 'touch', '', { type: 'soil', surface: 'intaglio', contaminant: 'saliva' }],
  [75, 'typed', '', { type: 'lot', item: 'adhesive resin', lot: 'INV-77' }],
  [80, 'voice', 'stop', { type: 'stop' }],
];

/** The entries that talk makes. */
export function galleryEntries(): readonly Entry[] {
  let { state } = opening(initialState(GALLERY_CASE, GALLERY_PLAN), false);
  let head = openRecord(GALLERY_HEADER);
  const entries: Entry[] = [];
  for (const [seconds, via, phrase, command] of TALK) {
    const at = seconds * 1000;
    const stamp = {
      at,
      wall: new Date(Date.parse(OPENED) + at).toISOString(),
      mono: at,
      who: 'dentist' as const,
      via,
      heard: phrase === '' ? null : { phrase, score: 0.91 },
    };
    const came = advance(state, command, stamp);
    const { tooth, step, outcome } = came;
    const entry = append(head, { stamp, tooth, step, command, outcome });
    head = headAfter(entry);
    state = came.state;
    entries.push(entry);
  }
  return entries;
}
