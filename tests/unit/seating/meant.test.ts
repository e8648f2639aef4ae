import { expect, test } from 'vitest';
import { inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';

/** The steps that the last entries were taken to mean. */
const steps = (chair: Operatory, count: number) =>
  chair.told.slice(-count).map(({ command, step }) => [command.type, step]);

test('a bare "done" keeps the step it ended, also when it is refused', () => {
  const chair = new Operatory(inventedCase([ZIRCONIA])).until('cleaner');
  chair.must({ type: 'begin', step: 'cleaner' });
  chair.say({ type: 'finish' });
  chair.wait(30).must({ type: 'finish' }).say({ type: 'next' });
  expect(steps(chair, 4)).toEqual([
    ['begin', 'cleaner'],
    ['finish', 'cleaner'],
    ['finish', 'cleaner'],
    ['next', 'cleaner-rinse'],
  ]);
});

test('a question, a reason and a yes keep the step they are about', () => {
  const chair = new Operatory(inventedCase([ZIRCONIA])).until('shade-photo');
  chair.say({ type: 'skip' });
  chair.say({ type: 'reason', reason: 'not-available' });
  chair.say({ type: 'confirm' });
  expect(steps(chair, 3)).toEqual([
    ['skip', 'shade-photo'],
    ['reason', 'shade-photo'],
    ['confirm', 'shade-photo'],
  ]);
});

test('an override keeps the step it forces', () => {
  const chair = new Operatory(inventedCase([ZIRCONIA])).until('mix');
  chair.say({ type: 'soil', surface: 'field', contaminant: 'saliva' });
  chair.say({ type: 'begin', step: 'mix' });
  chair.say({ type: 'override', reason: 'clinical-judgement' });
  chair.say({ type: 'confirm' });
  expect(steps(chair, 4)).toEqual([
    ['soil', null],
    ['begin', 'mix'],
    ['override', 'mix'],
    ['confirm', 'mix'],
  ]);
});

test('an undo keeps the step it takes back; what is about no step keeps none', () => {
  const chair = new Operatory(inventedCase([ZIRCONIA])).until('try-in');
  chair.say({ type: 'undo' });
  chair.say({ type: 'note', text: 'a note' });
  chair.say({ type: 'find', finding: 'contacts-tight' });
  expect(steps(chair, 3)).toEqual([
    ['undo', 'prep-clean'],
    ['note', null],
    ['find', null],
  ]);
});
