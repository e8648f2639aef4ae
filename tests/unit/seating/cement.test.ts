import { describe, expect, test } from 'vitest';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { refusedAs } from '../../chair/refusals.ts';

const zirconia = () => new Operatory(inventedCase([ZIRCONIA]));
const CEMENT_S = 120;

describe('mixing and seating (laws 6 and 8)', () => {
  test('the mix before the prep is ready is refused, with the step that is missing', () => {
    expect(zirconia().until('bond').say({ type: 'begin', step: 'mix' })).toEqual(
      refusedAs('prep-not-ready', { step: 'mix', wayOn: 'bond' }),
    );
  });

  test('the mix in a field that got wet is refused; the override is read back and kept', () => {
    const chair = zirconia().until('mix');
    chair.must({ type: 'soil', surface: 'field', contaminant: 'saliva' });
    const wet = refusedAs('field-wet', { step: 'mix', wayOn: 'dry-check' });
    expect(chair.say({ type: 'begin', step: 'mix' })).toEqual(wet);
    expect(chair.say({ type: 'override', reason: 'patient-comfort' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([
      { id: 'ask-override', refusal: 'field-wet', step: 'mix', reason: 'patient-comfort' },
    ]);
    expect(chair.unit.now.cement).toBe('none');
    expect(chair.say({ type: 'confirm' })).toEqual({
      kind: 'accepted',
      deviation: {
        kind: 'overridden',
        step: 'mix',
        reason: 'patient-comfort',
        refusal: wet.kind === 'refused' ? wet.refusal : null,
        servedS: null,
      },
    });
    expect(chair.unit.now.cement).toBe('mixed');
  });

  test('what cannot be taken back waits for a yes; a no leaves all as it was', () => {
    const chair = zirconia().until('mix');
    const before = chair.unit;
    expect(chair.say({ type: 'begin', step: 'mix' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-begin', step: 'mix' }]);
    expect(chair.say({ type: 'deny' })).toEqual({ kind: 'accepted', deviation: null });
    expect(chair.unit).toEqual(before);
    expect(chair.refusedFor({ type: 'confirm' })).toBe('nothing-asked');
  });

  test('seated in the last second of the working time; not one second later', () => {
    const chair = zirconia().until('seat');
    const { mixedAt } = chair.unit;
    chair.at = (mixedAt ?? 0) + CEMENT_S * 1000;
    const late = chair.fork().wait(1);
    chair.must({ type: 'begin', step: 'seat' });
    expect(late.say({ type: 'begin', step: 'seat' })).toEqual(
      refusedAs('working-time-over', { step: 'seat' }),
    );
    late.must({ type: 'start-over' });
    expect(late.unit.now).toEqual({
      where: 'bench',
      intaglio: 'soiled',
      prep: 'exposed',
      field: 'isolated',
      cement: 'none',
    });
    expect(late.unit.contaminants).toEqual(['cement']);
    expect(late.until(null).unit.now.cement).toBe('set');
  });

  test('mixed and not loaded in time: mix again', () => {
    const chair = zirconia().until('load').wait(CEMENT_S);
    expect(chair.say({ type: 'begin', step: 'load' })).toEqual(
      refusedAs('working-time-over', { step: 'load', wayOn: 'mix' }),
    );
    chair.must({ type: 'begin', step: 'mix' }).must({ type: 'begin', step: 'load' });
  });

  test('over a seated crown start over is read back; the next cure is read back again', () => {
    const chair = zirconia().until('cure-buccal');
    expect(chair.say({ type: 'start-over' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-start-over' }]);
    expect(chair.say({ type: 'confirm' })).toEqual({
      kind: 'accepted',
      deviation: {
        kind: 'started-over',
        step: null,
        reason: null,
        refusal: null,
        servedS: null,
      },
    });
    chair.until('cure-occlusal');
    expect(chair.say({ type: 'begin', step: 'cure-occlusal' })).toEqual({ kind: 'asked' });
  });

  test('hydrofluoric acid is read back', () => {
    const chair = new Operatory(inventedCase([DISILICATE])).until('porcelain-etch');
    expect(chair.say({ type: 'begin', step: 'porcelain-etch' })).toEqual({ kind: 'asked' });
    expect(chair.calls).toEqual([{ id: 'ask-begin', step: 'porcelain-etch' }]);
  });

  test('the crown cannot be seated while it is tried in, whatever is overridden', () => {
    const chair = zirconia().until('contacts');
    expect(chair.refusedFor({ type: 'begin', step: 'seat' })).toBe('in-mouth');
    expect(chair.refusedFor({ type: 'override', reason: 'clinical-judgement' })).toBe(
      'no-override',
    );
  });
});
