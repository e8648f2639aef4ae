import { describe, expect, test } from 'vitest';
import type { Command } from '../../../machines/contract/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { refusedAs } from '../../chair/refusals.ts';

const zirconia = () => new Operatory(inventedCase([ZIRCONIA]));
const plain = { overridable: false };

describe('skipping and going back', () => {
  test('a skip asks for a reason, is read back and kept', () => {
    const chair = zirconia().until('shade-photo');
    expect(chair.say({ type: 'skip' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-reason', for: 'skip' }]);
    expect(chair.say({ type: 'reason', reason: 'not-needed' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-skip', step: 'shade-photo', reason: 'not-needed' }]);
    expect(chair.say({ type: 'confirm' })).toEqual({
      kind: 'accepted',
      deviation: {
        kind: 'skipped',
        step: 'shade-photo',
        reason: 'not-needed',
        refusal: null,
        servedS: null,
      },
    });
    expect(chair.step).toBe('airway');
  });

  test('skipping the cleaning cleans nothing', () => {
    const chair = zirconia().until('cleaner');
    chair.must({ type: 'skip', reason: 'not-available' });
    expect(chair.refusedFor({ type: 'begin', step: 'zirconia-primer' })).toBe('intaglio-soiled');
  });

  test('back points at the step before and changes nothing else; next goes forward again', () => {
    const chair = zirconia().until('margins');
    const { steps } = chair.unit;
    chair.must({ type: 'back' });
    expect(chair.step).toBe('contacts');
    chair.must({ type: 'back' });
    expect(chair.step).toBe('try-in');
    chair.must({ type: 'next' });
    expect(chair.step).toBe('margins');
    expect(chair.unit.steps).toEqual(steps);
  });
});

describe('undo', () => {
  test('a contamination taken back is read back, and kept as withdrawn', () => {
    const chair = zirconia().until('zirconia-primer');
    const { contaminants, now } = chair.unit;
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' });
    expect(chair.say({ type: 'undo' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-undo', contamination: true }]);
    expect(chair.say({ type: 'confirm' })).toEqual({
      kind: 'accepted',
      deviation: { kind: 'withdrawn', step: null, reason: null, refusal: null, servedS: null },
    });
    expect({ contaminants: chair.unit.contaminants, now: chair.unit.now }).toEqual({
      contaminants,
      now,
    });
  });

  test('silicone said to be in and taken back is a withdrawn contamination too', () => {
    const chair = zirconia().until('contacts').must({ type: 'begin', step: 'fit-paste' });
    expect(chair.say({ type: 'undo' })).toEqual({ kind: 'asked' });
  });

  test('a step marked done by mistake is taken back without a question', () => {
    const chair = zirconia().until('contacts').must({ type: 'finish' });
    expect(chair.say({ type: 'undo' })).toEqual({ kind: 'accepted', deviation: null });
    expect(chair.step).toBe('contacts');
  });

  test.each(['mix', 'seat', 'porcelain-etch', 'cure-occlusal'] as const)(
    '%s cannot be taken back, nor what came before it',
    (step) => {
      const unit = step === 'porcelain-etch' ? DISILICATE : ZIRCONIA;
      const chair = new Operatory(inventedCase([unit])).until(step).must({ type: 'begin', step });
      expect(chair.say({ type: 'undo' })).toEqual(refusedAs('cannot-undo', plain));
    },
  );

  test('there is nothing to take back at the start', () => {
    expect(zirconia().say({ type: 'undo' })).toEqual(refusedAs('nothing-to-undo', plain));
  });
});

describe('pace', () => {
  test('stopped: nothing begins, what runs can be ended, contaminations are heard', () => {
    const chair = zirconia().until('cleaner').must({ type: 'begin', step: 'cleaner' });
    chair.must({ type: 'stop' }).wait(20);
    expect(chair.say({ type: 'begin', step: 'cleaner-rinse' })).toEqual(
      refusedAs('stopped', plain),
    );
    chair.must({ type: 'finish' });
    chair.must({ type: 'soil', surface: 'prep', contaminant: 'blood' });
    chair.must({ type: 'resume' }).must({ type: 'begin', step: 'cleaner-rinse' });
  });

  test('"done" to the mix would begin it: not while stopped or paused', () => {
    const chair = zirconia().until('mix').must({ type: 'stop' });
    expect(chair.say({ type: 'finish' })).toEqual(refusedAs('stopped', plain));
    chair.must({ type: 'resume' }).must({ type: 'pause' });
    expect(chair.say({ type: 'finish', step: 'mix' })).toEqual(refusedAs('paused', plain));
  });

  test('a yes while paused carries out only what may be said while paused', () => {
    const chair = zirconia().until('mix');
    chair.say({ type: 'begin', step: 'mix' });
    chair.must({ type: 'pause' });
    expect(chair.say({ type: 'confirm' })).toEqual(refusedAs('paused', plain));
    expect(chair.unit.now).toMatchObject({ cement: 'none' });
    chair.must({ type: 'resume' });
    expect(chair.say({ type: 'confirm' })).toEqual(refusedAs('nothing-asked', plain));
    chair.mumble({ type: 'soil', surface: 'prep', contaminant: 'blood' });
    chair.must({ type: 'pause' });
    expect(chair.say({ type: 'confirm' })).toMatchObject({ kind: 'accepted' });
  });

  test('a question that is asked goes on waiting while another thing is asked for', () => {
    const chair = zirconia().until('mix');
    chair.say({ type: 'begin', step: 'mix' });
    expect(chair.refusedFor({ type: 'ask', about: 'time' })).toBe('nothing-to-say');
    expect(chair.say({ type: 'confirm' })).toEqual({ kind: 'accepted', deviation: null });
  });

  test('stop drops the question', () => {
    const chair = zirconia().until('mix');
    chair.say({ type: 'begin', step: 'mix' });
    chair.must({ type: 'stop' });
    expect(chair.refusedFor({ type: 'confirm' })).toBe('nothing-asked');
  });

  test('an overridden "done" acts on the step that was refused, wherever the pointer went since', () => {
    const chair = zirconia().until('mix');
    chair.must({ type: 'soil', surface: 'field', contaminant: 'saliva' });
    chair.refusedFor({ type: 'begin', step: 'mix' });
    chair.must({ type: 'back' });
    chair.say({ type: 'override', reason: 'clinical-judgement' });
    chair.say({ type: 'confirm' });
    expect(chair.deviations.at(-1)).toMatchObject({ kind: 'overridden', step: 'mix' });
  });

  test('a closed case refuses all', () => {
    const chair = zirconia();
    expect(chair.say({ type: 'close' })).toEqual(
      refusedAs('steps-open', { wayOn: 'case-check', ...plain }),
    );
    chair.until(null).must({ type: 'close' });
    const all: readonly Command[] = [
      { type: 'begin', step: 'cleaner' },
      { type: 'finish' },
      { type: 'soil', surface: 'prep', contaminant: 'saliva' },
      { type: 'undo' },
      { type: 'resume' },
      { type: 'ask', about: 'step' },
      { type: 'note', text: 'late' },
      { type: 'close' },
    ];
    for (const command of all) expect(chair.say(command)).toEqual(refusedAs('closed', plain));
  });
});
