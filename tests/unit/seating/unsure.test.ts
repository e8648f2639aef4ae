import { describe, expect, test } from 'vitest';
import { live, view } from '../../../machines/conduct/index.ts';
import type { Command } from '../../../machines/contract/index.ts';
import { callText } from '../../../prompts/catalogue/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';

/** Invented: a lithium disilicate crown on 15. */
const one = () => new Operatory(inventedCase([DISILICATE]));
const said = (chair: Operatory) => chair.calls.map((call) => callText(call)).join(' ');

describe('heard with middling confidence', () => {
  test('it is asked back and nothing has changed; a yes carries it out', () => {
    const chair = one().until('try-in');
    const before = chair.unit;
    const command: Command = { type: 'begin', step: 'try-in' };
    expect(chair.mumble(command)).toEqual({ kind: 'asked' });
    expect(said(chair)).toBe('Trying in. Is that right?');
    expect(chair.unit).toEqual(before);
    expect(live(chair.state).commands).toContain('confirm');
    expect(chair.say({ type: 'confirm' }).kind).toBe('accepted');
    expect(chair.unit.now.where).toBe('mouth');
    expect(chair.told.at(-1)).toMatchObject({ step: 'try-in', tooth: '15' });
  });

  test('a no leaves everything as it was', () => {
    const chair = one().until('take-out');
    const before = chair.unit;
    chair.mumble({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' });
    expect(said(chair)).toBe('Saliva on the inside. Is that right?');
    expect(chair.say({ type: 'deny' }).kind).toBe('accepted');
    expect(chair.unit).toEqual(before);
  });

  test('a bare "done" is asked back by what it would end, and means that when the yes comes', () => {
    const chair = one().until('case-check');
    expect(chair.mumble({ type: 'finish' })).toEqual({ kind: 'asked' });
    expect(said(chair)).toBe('Case check. Is it done?');
    chair.say({ type: 'confirm' });
    expect(chair.unit.steps).toEqual({ 'case-check': 'done' });
  });

  test('something else said clearly is no answer: the question is dropped', () => {
    const chair = one().until('case-check');
    chair.mumble({ type: 'finish', step: 'history' });
    chair.must({ type: 'finish', step: 'case-check' });
    expect(chair.unit.steps).toEqual({ 'case-check': 'done' });
    expect(chair.say({ type: 'confirm' }).kind).toBe('refused');
  });

  test('what is refused or read back anyway is not asked twice', () => {
    const chair = one().until('porcelain-etch');
    expect(chair.mumble({ type: 'begin', step: 'acid-clean' }).kind).toBe('refused');
    expect(chair.mumble({ type: 'begin', step: 'porcelain-etch' })).toEqual({ kind: 'asked' });
    expect(said(chair)).toBe('Porcelain etch. Start now?');
  });

  test('questions and the safe direction are done at once', () => {
    const chair = one().until('case-check');
    for (const type of ['pause', 'stop'] as const)
      expect(chair.mumble({ type }).kind).toBe('accepted');
    expect(chair.mumble({ type: 'ask', about: 'step' }).kind).toBe('accepted');
    expect(chair.mumble({ type: 'resume' })).toEqual({ kind: 'asked' });
    expect(view(chair.state, chair.at).pace).toBe('stopped');
    chair.must({ type: 'confirm' });
    expect(view(chair.state, chair.at).pace).toBe('going');
  });

  test('an early "done" is refused at the moment it was said, whenever the yes might come', () => {
    const chair = one().until('porcelain-etch').must({ type: 'begin', step: 'porcelain-etch' });
    chair.wait(3);
    expect(chair.mumble({ type: 'finish' }).kind).toBe('refused');
    chair.wait(60);
    expect(chair.say({ type: 'confirm' }).kind).toBe('refused');
  });

  test('of two units, the one that was meant', () => {
    const chair = new Operatory(inventedCase([ZIRCONIA, DISILICATE])).until('take-out');
    const other = Object.keys(chair.state.units).find((tooth) => tooth !== chair.state.active);
    expect(chair.mumble({ type: 'unit', tooth: '15' }).kind).toBe('asked');
    expect(said(chair)).toMatch(/^Tooth one five\. Upper right second premolar\. Is that right\?$/);
    chair.say({ type: 'confirm' });
    expect(chair.state.active).toBe(other);
  });
});
