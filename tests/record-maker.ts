/** Records for the tests of the record: an invented case, its plan cut short, and as many entries as asked for. */
import { CaseFile } from '../machines/contract/index.ts';
import type { Command, Entry, Header, Outcome, Plan, Stamp } from '../machines/contract/index.ts';
import { append, headAfter, makeHeader, openRecord } from '../machines/record/index.ts';
import type { Head } from '../machines/record/index.ts';

const OPENED = Date.UTC(2026, 1, 3, 9, 0, 0);

export function sampleHeader(reference = 'invented-1'): Header {
  const caseFile = CaseFile.parse({
    format: 'seatcall-case/1',
    reference,
    invented: true,
    units: [
      {
        tooth: '46',
        kind: 'crown',
        material: 'zirconia-3y',
        thicknessMm: 1.2,
        substrate: 'dentin',
        prep: { heightMm: 4.5, convergenceDeg: 12, widthMm: 9.2 },
        provisionalCement: 'non-eugenol',
        intaglioFromLab: 'untreated',
        isolation: 'rolls',
        cement: 'resin cement é €',
      },
    ],
    shelf: {
      abrasion: { particleUm: 50, bar: 1.5 },
      cleaner: { label: 'alkaline cleaner', lot: 'A-17', expires: '2027-01-31' },
      hydrofluoricAcid: null,
      phosphoricAcid: null,
      silane: null,
      phosphatePrimer: { label: '10-MDP primer' },
      adhesive: null,
      cements: [{ label: 'resin cement é €', class: 'self-adhesive-resin', workingS: 150.5 }],
      light: { mwCm2: 1200 },
    },
  });
  const plan: Plan = {
    format: 'seatcall-plan/1',
    reference,
    invented: true,
    team: 'assisted',
    cautions: [{ id: 'aspiration', text: 'A crown can be swallowed or breathed in.' }],
    units: [
      {
        tooth: '46',
        toothName: 'lower right first molar',
        kind: 'crown',
        material: 'zirconia-3y',
        materialName: 'zirconia 3Y',
        retention: { limitDeg: 28.07, ratio: 0.49, holds: true, sentence: 'Holds.', working: [] },
        cement: {
          label: 'resin cement é €',
          class: 'self-adhesive-resin',
          carriesPhosphate: true,
          workingS: 150.5,
          workingFrom: 'shelf',
          settingS: 300,
          waitForSet: true,
        },
        steps: [
          {
            id: 'cleaner',
            title: 'Cleaner',
            todo: 'Cleaner on the intaglio.',
            gate: '',
            why: 'Saliva blocks the phosphate monomer.',
            who: 'assistant',
            dwell: {
              from: 'begin',
              minS: 20,
              targetS: 20,
              maxS: 60,
              holdable: false,
              mark: 'common-practice',
              source: 'none',
            },
            cautions: ['alkaline-cleaner'],
            scope: 'unit',
            goodFor: null,
          },
        ],
        spare: [],
        working: [],
        never: [],
        notes: [],
      },
    ],
    order: [['46']],
    expired: [],
  };
  return makeHeader({
    invented: true,
    software: 'seatcall test',
    opened: new Date(OPENED).toISOString(),
    case: caseFile,
    plan,
  });
}

const COMMANDS: readonly Command[] = [
  { type: 'begin', step: 'cleaner', tooth: '46' },
  { type: 'finish', step: 'cleaner' },
  { type: 'soil', surface: 'intaglio', contaminant: 'saliva' },
  { type: 'next' },
  { type: 'note', text: 'margin “open” mesially: {"prev":"x"} \\ Zürich 😂' },
  { type: 'skip', step: 'shade', reason: 'not-needed' },
  { type: 'lot', item: 'cement', lot: 'L-0042' },
  { type: 'confirm' },
];

const OUTCOMES: readonly Outcome[] = [
  { kind: 'accepted', deviation: null },
  { kind: 'asked' },
  {
    kind: 'refused',
    refusal: {
      id: 'in-mouth',
      step: 'cleaner',
      wayOn: 'take-out',
      seconds: null,
      overridable: false,
    },
  },
  {
    kind: 'accepted',
    deviation: { kind: 'short', step: 'cleaner', reason: null, refusal: null, servedS: 12.25 },
  },
];

/** The element at `i`, round and round. */
function turn<T>(items: readonly [T, ...T[]] | readonly T[], i: number): T {
  const item = items[i % items.length];
  if (item === undefined) throw new Error('nothing to take turns in');
  return item;
}

/** The stamp of the `i`th sample entry, `at` ms into the case. */
export function sampleStamp(i: number, at: number): Stamp {
  return {
    at,
    wall: new Date(OPENED + at).toISOString(),
    mono: at + 1234,
    who: turn(['dentist', 'assistant', 'seatcall'] as const, i),
    via: turn(['voice', 'key', 'touch', 'typed'] as const, i),
    heard: i % 4 === 0 ? { phrase: 'cleaner on', score: 0.875 } : null,
  };
}

/** The `i`th sample entry after `head`. */
export function sampleEntry(head: Head, i = head.n): Entry {
  return append(head, {
    stamp: sampleStamp(i, head.at + 250 * (i % 7)),
    tooth: i % 3 === 0 ? null : '46',
    step: i % 3 === 0 ? null : 'cleaner',
    command: turn(COMMANDS, i),
    outcome: turn(OUTCOMES, i),
  });
}

export interface SampleRecord {
  readonly header: Header;
  readonly entries: readonly Entry[];
  readonly head: Head;
}

/** A record of `count` entries, not sealed. */
export function sampleRecord(count: number, reference?: string): SampleRecord {
  const header = sampleHeader(reference);
  const entries: Entry[] = [];
  let head = openRecord(header);
  for (let i = 0; i < count; i += 1) {
    const entry = sampleEntry(head, i);
    entries.push(entry);
    head = headAfter(entry);
  }
  return { header, entries, head };
}
