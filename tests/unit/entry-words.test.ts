import { expect, test } from 'vitest';
import { commandWords } from '../../assistant/screens/command-words.ts';
import { deviationWords, entryWords, titlesOf } from '../../assistant/screens/entry-words.ts';
import { stepWords } from '../../assistant/screens/words.ts';
import type { Command, Entry } from '../../machines/contract/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { inventedCase, ZIRCONIA } from '../chair/cases.ts';

const entry: Entry = {
  kind: 'entry',
  n: 7,
  prev: '0'.repeat(64),
  stamp: {
    at: 65_400,
    wall: '2031-04-09T12:01:05.400Z',
    mono: 65_400,
    who: 'assistant',
    via: 'voice',
    heard: { phrase: 'cleaner on', score: 0.934 },
  },
  tooth: '46',
  step: 'cleaner',
  command: { type: 'begin', step: 'cleaner' },
  outcome: {
    kind: 'refused',
    refusal: {
      id: 'in-mouth',
      step: 'cleaner',
      wayOn: 'take-out',
      seconds: null,
      overridable: false,
    },
  },
};

test('a refused entry in plain words, with why and the way on', () => {
  expect(entryWords(entry, titlesOf(makePlan(inventedCase([ZIRCONIA]))), 60)).toEqual({
    n: 7,
    time: '13:01:05',
    since: '1:05',
    who: 'assistant',
    via: 'Voice',
    heard: '“cleaner on” 93\u00A0%',
    tooth: '46',
    command: 'Start: Alkaline cleaner',
    outcome: 'Refused: Never in the mouth. It burns. First, take-out. No override.',
    kind: 'refused',
    deviation: '',
  });
});

test('a deviation names the step, what was served and why', () => {
  const short: Entry = {
    ...entry,
    tooth: null,
    stamp: { ...entry.stamp, via: 'key', heard: null },
    command: { type: 'confirm' },
    outcome: {
      kind: 'accepted',
      deviation: {
        kind: 'short',
        step: 'cleaner',
        reason: 'patient-comfort',
        refusal: null,
        servedS: 12.4,
      },
    },
  };
  const { heard, tooth, command, outcome, deviation } = entryWords(short, stepWords, 0);
  expect({ heard, tooth, command, outcome, deviation }).toEqual({
    heard: '',
    tooth: '',
    command: 'Yes (Cleaner)',
    outcome: 'Taken',
    deviation: 'Ended short: Cleaner, after 12.4 s. Reason: patient comfort',
  });
});

test('an override says what had been refused', () => {
  const words = deviationWords(
    {
      kind: 'overridden',
      step: 'seat',
      reason: 'clinical-judgement',
      refusal: { id: 'field-wet', step: 'seat', wayOn: null, seconds: null, overridable: true },
      servedS: null,
    },
    stepWords,
  );
  expect(words).toBe(
    'Overridden: Seat. Reason: clinical judgement. Refused before: The field is wet. Dry the field first.',
  );
});

test('an override says what else was overridden for the same command', () => {
  const words = deviationWords(
    {
      kind: 'overridden',
      step: 'seat',
      reason: 'clinical-judgement',
      refusal: { id: 'field-wet', step: 'seat', wayOn: null, seconds: null, overridable: true },
      also: ['prep-not-ready'],
      servedS: null,
    },
    stepWords,
  );
  expect(words).toBe(
    'Overridden: Seat. Reason: clinical judgement. Refused before: The field is wet. Dry the field first. Overridden with it: The prep is not ready for cement.',
  );
});

const SAID: readonly (readonly [Command, string])[] = [
  [{ type: 'finish' }, 'Done'],
  [{ type: 'finish', step: 'abrade' }, 'Done: Abrade'],
  [
    { type: 'short', step: 'abrade', reason: 'equipment-failed' },
    'End short: Abrade (equipment failed)',
  ],
  [{ type: 'skip' }, 'Skip'],
  [{ type: 'override', reason: 'not-needed' }, 'Override (not needed)'],
  [{ type: 'reason', reason: 'already-done' }, 'Reason: already done'],
  [{ type: 'soil', surface: 'intaglio', contaminant: 'saliva' }, 'Intaglio: saliva'],
  [{ type: 'counts-clean' }, 'Counts as clean'],
  [{ type: 'find', finding: 'contacts-tight' }, 'Found: contacts tight'],
  [{ type: 'unit', tooth: '15' }, 'Unit 15'],
  [{ type: 'add', seconds: 10 }, 'Add 10 s'],
  [{ type: 'ask', about: 'time' }, 'Asked: how long left'],
  [{ type: 'note', text: 'deep margin' }, 'Note: deep margin'],
  [{ type: 'lot', item: 'silane', lot: 'INV-3' }, 'Lot of silane: INV-3'],
  [{ type: 'stop' }, 'Stop'],
];

test.each(SAID)('%o', (command, words) => {
  expect(commandWords(command, stepWords)).toBe(words);
});
