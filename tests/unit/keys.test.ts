import { expect, test } from 'vitest';
import { keyAct, type KeyPress } from '../../assistant/screens/keys.ts';
import type { ChairState } from '../../assistant/screens/model.ts';
import { answers, mainOffer, nearOffers } from '../../assistant/screens/offers.ts';
import { advance, initialState, live, view } from '../../machines/conduct/index.ts';
import type { ChairView, Command } from '../../machines/contract/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../chair/cases.ts';

const file = inventedCase([ZIRCONIA, DISILICATE]);

/** The chair after these commands, one a second. */
function chairAfter(...commands: readonly Command[]): ChairState {
  let state = initialState(file, makePlan(file));
  for (const [n, command] of commands.entries()) {
    ({ state } = advance(state, command, { at: (n + 1) * 1000 }));
  }
  return {
    view: view(state, commands.length * 1000),
    live: live(state),
    lastHeard: null,
    lastCall: null,
    typedHistory: [],
  };
}

const press = (key: string, more: Partial<KeyPress> = {}): KeyPress => ({
  key,
  code: key,
  modified: false,
  on: 'page',
  ...more,
});

const commandOf = (
  pressed: KeyPress,
  chair: ChairState,
  letters = true,
  pedal: string | null = null,
): Command | string | null => {
  const act = keyAct(pressed, chair, letters, pedal);
  return act === null ? null : 'command' in act ? act.command : act.type;
};

const START: Command = { type: 'begin', step: 'cleaner' };
const opened = chairAfter();
const dwelling = chairAfter(START);
const askedYes = chairAfter({ type: 'skip', reason: 'not-needed' });
const askedReason = chairAfter({ type: 'skip' });

test('the main key ends a look, ends a dwell that runs, says yes, goes on after a stop', () => {
  expect(commandOf(press(' '), opened)).toEqual({ type: 'finish', step: 'case-check' });
  expect(commandOf(press('Enter'), askedYes)).toEqual({ type: 'confirm' });
  expect(commandOf(press(' '), chairAfter({ type: 'stop' }))).toEqual({ type: 'resume' });
});

test('the main key starts a step with a dwell, then ends it', () => {
  const at = (more: Partial<ChairView>): ChairState => ({
    ...opened,
    view: {
      ...opened.view,
      step: {
        id: 'cleaner',
        title: 'Cleaner',
        todo: '',
        gate: '',
        who: 'assistant',
        cautions: [],
        targetS: 20,
      },
      ...more,
    },
  });
  expect(mainOffer(at({}))?.command).toEqual({ type: 'begin', step: 'cleaner' });
  expect(mainOffer(at({ dwells: dwelling.view.dwells }))?.command).toEqual({
    type: 'finish',
    step: 'cleaner',
  });
});

test('a pedal never chooses a reason', () => {
  expect(mainOffer(askedReason)).toBeNull();
  expect(commandOf(press('F13'), askedReason, true, 'F13')).toBeNull();
  expect(commandOf(press('3'), askedReason)).toEqual({ type: 'reason', reason: 'not-available' });
  expect(answers(askedReason.view.asked)).toHaveLength(8);
});

test('escape stops from anywhere, a text field included', () => {
  for (const on of ['page', 'button', 'text'] as const) {
    expect(commandOf(press('Escape', { on }), opened, false)).toEqual({ type: 'stop' });
  }
});

test('a focused button keeps space and enter; a pedal of its own key does the main action all the same', () => {
  expect(commandOf(press(' ', { on: 'button' }), opened)).toBeNull();
  expect(commandOf(press('F13', { on: 'button' }), opened, true, 'F13')).toEqual({
    type: 'finish',
    step: 'case-check',
  });
  expect(commandOf(press('F13', { on: 'text' }), opened, true, 'F13')).toEqual({
    type: 'finish',
    step: 'case-check',
  });
});

test('a pedal that writes a letter does not act while somebody types', () => {
  expect(commandOf(press('b', { on: 'text' }), opened, true, 'b')).toBeNull();
});

test('letters act where they are switched on, and only on what makes sense now', () => {
  expect(commandOf(press('y'), askedYes)).toEqual({ type: 'confirm' });
  expect(commandOf(press('n'), askedYes)).toEqual({ type: 'deny' });
  expect(commandOf(press('y'), opened)).toBeNull();
  expect(commandOf(press('y'), askedYes, false)).toBeNull();
  expect(commandOf(press('h'), dwelling)).toEqual({ type: 'hold' });
  expect(commandOf(press('+'), dwelling)).toEqual({ type: 'add', seconds: 10 });
  expect(commandOf(press('h'), opened)).toBeNull();
  expect(commandOf(press('p'), opened)).toEqual({ type: 'pause' });
  expect(commandOf(press('p'), chairAfter({ type: 'pause' }))).toEqual({ type: 'resume' });
  expect(commandOf(press('w'), opened)).toEqual({ type: 'ask', about: 'why' });
});

test('arrows go and ask; with a modifier or in a text field they are the browser’s', () => {
  expect(commandOf(press('ArrowRight'), opened)).toEqual({ type: 'next' });
  expect(commandOf(press('ArrowLeft'), opened)).toEqual({ type: 'back' });
  expect(commandOf(press('ArrowUp'), opened)).toEqual({ type: 'ask', about: 'repeat' });
  expect(commandOf(press('ArrowDown'), opened)).toEqual({ type: 'ask', about: 'time' });
  expect(commandOf(press('ArrowUp', { on: 'text' }), opened)).toBeNull();
  expect(commandOf(press('ArrowLeft', { modified: true }), opened)).toBeNull();
});

test('help and the command line have keys', () => {
  expect(commandOf(press('?'), opened)).toBe('keys');
  expect(commandOf(press('/'), opened)).toBe('type');
});

test('a dwell of another step can be ended by its own button', () => {
  const offers = nearOffers(dwelling).map(({ label, command }) => [label, command]);
  expect(offers).toContainEqual([
    'Done: Alkaline cleaner',
    { type: 'finish', step: 'cleaner', tooth: '46' },
  ]);
});

test('what can never be overridden offers no override', () => {
  const refused = chairAfter({ type: 'begin', step: 'porcelain-etch' });
  expect(refused.view.refusal?.overridable).toBe(false);
  expect(nearOffers(refused).map(({ command }) => command.type)).not.toContain('override');
});
