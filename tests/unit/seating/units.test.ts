import { describe, expect, test } from 'vitest';
import { dueCalls, live, view } from '../../../machines/conduct/index.ts';
import { callText } from '../../../prompts/catalogue/index.ts';
import { commandFor } from '../../../prompts/phrases/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';

/** Invented: a zirconia crown on 46 and a lithium disilicate crown on 15, both under way. */
const two = () => new Operatory(inventedCase([ZIRCONIA, DISILICATE]));
const said = (chair: Operatory) => chair.calls.map((call) => callText(call));

/** Both tried in and out; the cleaner lies on 46, and silane is not far on 15. */
function bothOut(): Operatory {
  const chair = two().until('take-out');
  const first = chair.state.active;
  chair.must({ type: 'finish' }).until('take-out').must({ type: 'finish' });
  expect(chair.state.active).toBe(first);
  return chair;
}

describe('several units', () => {
  test('all are tried in before the first is conditioned, then the seating order goes on', () => {
    const chair = two().until('take-out');
    const [one = '', other = ''] = chair.state.plan.units.map(({ tooth }) => tooth);
    expect(chair.state.active).toBe(one);
    chair.must({ type: 'finish' });
    expect({ active: chair.state.active, step: chair.step }).toEqual({
      active: other,
      step: 'disinfect',
    });
    chair.until('take-out').must({ type: 'finish' });
    expect(chair.state.active).toBe(one);
    expect(said(chair)[0]).toBe('Tooth four six. Lower right first molar.');
  });

  test('steps of the case are done once, and are said without a tooth', () => {
    const chair = two();
    chair.must({ type: 'finish', step: 'case-check' });
    expect(Object.keys(chair.state.units).map((tooth) => chair.unitOn(tooth).steps)).toEqual([
      { 'case-check': 'done' },
      { 'case-check': 'done' },
    ]);
    expect(said(chair)[0]).toBe('Ask about allergies and consent.');
  });

  test('two dwells run at once; each call names its tooth', () => {
    const chair = bothOut();
    chair.doStep().must({ type: 'begin', step: 'cleaner' });
    expect(said(chair)[0]).toMatch(/^Four six\. /);
    chair.must({ type: 'begin', step: 'intaglio-rinse', tooth: '15' });
    expect(said(chair)[0]).toMatch(/^One five\. /);
    const due = dueCalls(chair.state).map(({ call }) => callText(call));
    expect(due.every((text) => /^(Four six|One five)\. /.test(text))).toBe(true);
    expect(view(chair.state, chair.at).dwells.map(({ tooth, step }) => [tooth, step])).toEqual([
      ['15', 'intaglio-rinse'],
      ['46', 'cleaner'],
    ]);
  });

  test('a bare "done" ends the dwell that has run longest on the unit worked on, and says so', () => {
    const chair = bothOut();
    chair.doStep().must({ type: 'begin', step: 'cleaner' }).wait(5);
    chair.must({ type: 'begin', step: 'intaglio-rinse', tooth: '15' }).wait(40);
    chair.must({ type: 'unit', tooth: '46' }).must({ type: 'finish' });
    expect(said(chair)[0]).toBe('Four six. Cleaner. That one is done.');
    expect(chair.told.at(-1)).toMatchObject({ tooth: '46', step: 'cleaner' });
    chair.must({ type: 'finish' });
    expect(said(chair)[0]).toBe('One five. Water rinse. That one is done.');
  });

  test('too early a "done" says which dwell it was taken for', () => {
    const chair = bothOut();
    chair.doStep().must({ type: 'begin', step: 'cleaner' });
    chair.must({ type: 'begin', step: 'intaglio-rinse', tooth: '15' });
    expect(chair.refusedFor({ type: 'finish' })).toBe('dwell-too-short');
    expect(said(chair)[0]).toMatch(/^One five\. Refused\. Not long enough\. Water rinse\. /);
  });

  test('words to a tooth never end a dwell of another', () => {
    const chair = bothOut();
    chair.doStep().must({ type: 'begin', step: 'cleaner' }).wait(60);
    const before = chair.unitOn('46');
    chair.say({ type: 'finish', tooth: '15' });
    expect(chair.unitOn('46')).toBe(before);
    expect(chair.told.at(-1)?.tooth).toBe('15');
  });

  test('"how long left" answers for everything that runs', () => {
    const chair = bothOut();
    chair.doStep().must({ type: 'begin', step: 'cleaner' });
    chair.must({ type: 'begin', step: 'intaglio-rinse', tooth: '15' });
    chair.must({ type: 'ask', about: 'time' });
    const teeth = chair.calls.map((call) => ('tooth' in call ? call.tooth : null));
    expect(new Set(teeth)).toEqual(new Set(['15', '46']));
  });
});

describe('undo across units', () => {
  test('what cannot be taken back on one unit leaves the other free', () => {
    const chair = two().until('mix');
    expect(chair.state.active).toBe('46');
    chair.must({ type: 'finish', step: 'disinfect', tooth: '15' });
    const before = chair.unitOn('15');
    chair.must({ type: 'find', finding: 'contacts-tight', tooth: '15' });
    chair.must({ type: 'begin', step: 'mix', tooth: '46' });
    const mixed = chair.unitOn('46');
    chair.must({ type: 'undo' });
    expect(chair.unitOn('15')).toBe(before);
    expect(chair.unitOn('46')).toBe(mixed);
    expect(chair.told.at(-1)).toMatchObject({ tooth: '15', outcome: { kind: 'accepted' } });
  });

  test('taking back leaves what was done since on the other unit as it is', () => {
    const chair = bothOut();
    chair.doStep().must({ type: 'begin', step: 'cleaner' });
    const running = chair.unitOn('46');
    chair.must({ type: 'begin', step: 'intaglio-rinse', tooth: '15' });
    chair.must({ type: 'undo' });
    expect(said(chair)[0]).toBe('One five. That is undone. Water rinse.');
    expect(chair.unitOn('46')).toBe(running);
    expect(chair.unitOn('15').dwells).toEqual([]);
  });
});

test('the digits of a tooth address it; what is due there is what is meant', () => {
  const chair = bothOut();
  chair.doStep().must({ type: 'begin', step: 'cleaner' }).wait(30);
  chair.must({ type: 'finish' });
  const now = live(chair.state);
  expect(commandFor('rinsing', now)).toEqual({ type: 'begin', step: 'cleaner-rinse' });
  expect(commandFor('one five rinsing', now)).toEqual({
    type: 'begin',
    step: 'intaglio-rinse',
    tooth: '15',
  });
  expect(commandFor('one five silane on', now)).toEqual({
    type: 'begin',
    step: 'silane',
    tooth: '15',
  });
  expect(commandFor('one five', now)).toBe(null);
  expect(commandFor('tooth one five', now)).toEqual({ type: 'unit', tooth: '15' });
});

test('marks of two dwells that fall together are said one after the other, with the time left by then', () => {
  const chair = bothOut();
  chair.doStep().must({ type: 'begin', step: 'intaglio-rinse', tooth: '15' });
  chair.must({ type: 'begin', step: 'cleaner', tooth: '46' });
  const due = dueCalls(chair.state);
  const marks = due.filter(({ call }) => call.id === 'left');
  for (const [i, { at }] of due.entries()) {
    const next = due[i + 1];
    if (next === undefined || !marks.includes(next)) continue;
    expect(next.at - at).toBeGreaterThanOrEqual(3000);
  }
});

describe('two units meant for one mix', () => {
  test('one not ready gets a mix of its own, and is told so', () => {
    const chair = two();
    const first = chair.state.plan.order[0] ?? [];
    expect(first).toHaveLength(2);
    chair.until('mix');
    const one = chair.state.active;
    const other = first.find((tooth) => tooth !== one) ?? '';
    chair.say({ type: 'begin', step: 'mix' });
    chair.must({ type: 'confirm' });
    expect(chair.calls).toContainEqual({ id: 'same-mix', tooth: other, ready: false });
    expect(said(chair).join(' ')).toContain('It is not ready, and gets a mix of its own.');
    expect([chair.unitOn(one).mixedAt, chair.unitOn(other).mixedAt]).toEqual([chair.at, null]);
  });

  test('one that is ready is asked for: each clock runs from its own word', () => {
    const chair = two().until('mix');
    const one = chair.state.active;
    const other = (chair.state.plan.order[0] ?? []).find((tooth) => tooth !== one) ?? '';
    chair.must({ type: 'unit', tooth: other }).until('mix');
    expect(chair.state.active).toBe(other);
    chair.must({ type: 'unit', tooth: one });
    const mixed = chair.at;
    chair.say({ type: 'begin', step: 'mix' });
    chair.must({ type: 'confirm' });
    expect(chair.calls).toContainEqual({ id: 'same-mix', tooth: other, ready: true });
    chair.wait(6).say({ type: 'begin', step: 'mix', tooth: other });
    chair.must({ type: 'confirm' });
    expect([chair.unitOn(one).mixedAt, chair.unitOn(other).mixedAt]).toEqual([
      mixed,
      mixed + 6_000,
    ]);
    // Asked once only: the first has its mix.
    expect(chair.calls.filter(({ id }) => id === 'same-mix')).toEqual([]);
  });

  test('the plan says how a mix is shared, and that a unit alone has its own', () => {
    const [unit] = two().state.plan.units;
    expect(unit?.steps.find(({ id }) => id === 'mix')?.todo).toContain(
      'of one mix: only when all are ready',
    );
    const solo = new Operatory(inventedCase([ZIRCONIA, DISILICATE], { team: 'solo' }));
    const [alone] = solo.state.plan.units;
    expect(alone?.steps.find(({ id }) => id === 'mix')?.todo).toContain('For this unit alone.');
    expect(alone?.notes.join(' ')).toContain('Each has a mix of its own, with its own clock.');
  });
});
