import type { Call, Command } from '../contract/index.ts';
import { nextStep, plainRefusal, spoilsAt } from '../seating/index.ts';
import { follow, moveTo, prompt, stepCall } from './prompt.ts';
import { accepted, asked, deviation, type Given, refused, type Result } from './result.ts';
import { send, tell, unitEvent } from './send.ts';
import { type CaseState, unitOf } from './state.ts';
import { timesLeft } from './times.ts';
import { remember, takeBack } from './undo.ts';
import { about } from './whose.ts';
import { finish, turnDown } from './work.ts';

type Of<T extends Command['type']> = Extract<Command, { readonly type: T }>;

export function switchUnit(given: Given<Of<'unit'>>): Result {
  const { state, command } = given;
  if (state.units[command.tooth] === undefined) {
    return turnDown(given, state.active, plainRefusal('no-such-unit'));
  }
  const { tooth } = command;
  const moved = moveTo(remember(state, state, { tooth }), tooth);
  return accepted(moved.state, tooth, moved.calls);
}

/** "Next": ends a step that is a look or an act; a dwell that was not begun is named, never passed over. */
export function next(given: Given<Of<'next'>>): Result {
  const { state, stamp } = given;
  const context = unitOf(state, state.active);
  if (context.focus !== null) {
    const sent = send(state, state.active, unitEvent({ type: 'forward' }, stamp.at));
    const tooth = state.active;
    const moved = prompt(sent.ok ? remember(state, sent.state, { tooth }) : state);
    return accepted(moved.state, state.active, moved.calls);
  }
  return finish({ ...given, command: { type: 'finish' } });
}

export function back(given: Given<Of<'back'>>): Result {
  const { state, stamp } = given;
  const sent = send(state, state.active, unitEvent({ type: 'back' }, stamp.at));
  if (!sent.ok) return turnDown(given, state.active, sent.refusal);
  const moved = prompt(remember(state, sent.state, { tooth: state.active }));
  return accepted(moved.state, state.active, moved.calls);
}

/** The last command that can be taken back is; withdrawing a contamination is asked first. */
export function undo(given: Given<Of<'undo'>>, confirmed = false): Result {
  const { state, command } = given;
  const point = state.undo.at(-1);
  const before = takeBack(state);
  if (point === undefined || before === null) {
    const done = Object.values(state.units).some((unit) => unit.context.accepted > 0);
    return turnDown(given, state.active, plainRefusal(done ? 'cannot-undo' : 'nothing-to-undo'));
  }
  if (point.contamination && !confirmed) {
    const { tooth, step } = point;
    const call = about(state, tooth, { id: 'ask-undo', contamination: true });
    const pending = { command, tooth, forced: [], reason: null, refusal: null, call };
    const waiting = tell(state, { type: 'ask.yes', pending });
    return asked(waiting, tooth, call, step);
  }
  const moved = prompt(tell(before, { type: 'settled' }));
  const { tooth, step } = point;
  const kept = point.contamination ? deviation('withdrawn') : null;
  const undone = about(state, tooth, { id: 'undone', step });
  return accepted(moved.state, tooth, [undone, ...moved.calls], kept, step);
}

export function pace(given: Given<Of<'pause' | 'resume' | 'stop'>>): Result {
  const { state, command } = given;
  const told = tell(state, { type: command.type });
  if (command.type === 'resume') {
    const moved = prompt(told);
    return accepted(moved.state, null, [{ id: 'resumed' }, ...moved.calls]);
  }
  return accepted(told, null, [{ id: command.type === 'stop' ? 'stopped' : 'paused' }]);
}

/** Holding and adding act on the dwells of the unit worked on, or else of the one that has any. */
function dwellUnit(state: CaseState): string {
  if (unitOf(state, state.active).dwells.length > 0) return state.active;
  return (
    Object.keys(state.units).find((tooth) => unitOf(state, tooth).dwells.length > 0) ?? state.active
  );
}

export function timer(given: Given<Of<'hold' | 'release' | 'add'>>): Result {
  const { state, command, stamp } = given;
  const tooth = dwellUnit(state);
  const sent = send(state, tooth, unitEvent(command, stamp.at));
  if (!sent.ok) return turnDown(given, tooth, sent.refusal);
  const after = remember(state, sent.state, { tooth });
  if (command.type === 'hold') return accepted(after, tooth, [about(after, tooth, { id: 'held' })]);
  const seconds = command.type === 'add' ? command.seconds : (leftS(after, tooth, stamp.at) ?? 0);
  const id = command.type === 'add' ? 'added' : 'released';
  return accepted(after, tooth, [about(after, tooth, { id, seconds })]);
}

/** Whole seconds to the target of the dwell that ends first; null when none runs. */
function leftS(state: CaseState, tooth: string, at: number): number | null {
  const [first] = timesLeft(state, at).filter((one) => one.tooth === tooth);
  return first?.seconds ?? null;
}

/** How long is left of everything that runs, on whatever unit; what ends first, first. */
function timeCalls(state: CaseState, at: number): readonly Call[] {
  const dwells = timesLeft(state, at).map(({ tooth, step, seconds }) =>
    about(state, tooth, { id: 'left', step, seconds }),
  );
  const clocks = Object.keys(state.units).flatMap((tooth) => {
    const context = unitOf(state, tooth);
    const waiting = context.now.cement === 'mixed' || context.now.cement === 'loaded';
    const end = spoilsAt(context);
    if (!waiting || end === null) return [];
    const seconds = Math.max(0, Math.floor((end - at) / 1000));
    return [about(state, tooth, { id: 'seat-by', seconds })];
  });
  return [...clocks, ...dwells];
}

/** Questions change nothing; they are answered and kept. */
export function ask(given: Given<Of<'ask'>>): Result {
  const { state, command, stamp } = given;
  const tooth = state.active;
  const step = nextStep(unitOf(state, tooth));
  const calls = ((): readonly Call[] => {
    if (command.about === 'repeat') return state.lastCalls;
    if (command.about === 'time') return timeCalls(state, stamp.at);
    if (step === null) return [about(state, tooth, { id: 'finished' })];
    if (command.about === 'why') return [about(state, tooth, { id: 'why', step })];
    return [stepCall(state, tooth, step)];
  })();
  // A question that waits for its answer goes on waiting.
  if (calls.length === 0) return refused(state, tooth, plainRefusal('nothing-to-say'));
  return accepted(state, tooth, calls);
}

export function keep(given: Given<Of<'note' | 'lot'>>): Result {
  return accepted(given.state, given.state.active, [{ id: 'noted' }]);
}

/** The case closes when every unit has every step done or skipped. */
export function close(given: Given<Of<'close'>>): Result {
  const { state } = given;
  const open = state.plan.units.find((unit) => nextStep(unitOf(state, unit.tooth)) !== null);
  if (open !== undefined) {
    const step = nextStep(unitOf(state, open.tooth));
    const refusal = { ...plainRefusal('steps-open'), wayOn: step, overridable: false };
    return turnDown(given, open.tooth, refusal);
  }
  return accepted(tell(state, { type: 'close' }), null, [{ id: 'closed' }]);
}

/** Says where the case stands: the first words of a case, and of one that goes on after a break. */
export function opening(
  state: CaseState,
  again: boolean,
): { state: CaseState; calls: readonly Call[] } {
  const told: readonly Call[] = [
    { id: again ? 'reopened' : 'opening' },
    { id: 'unit', tooth: state.active },
  ];
  const moved = follow(state);
  return { state: { ...moved.state, lastCalls: moved.calls }, calls: [...told, ...moved.calls] };
}
