import type { Command } from '../contract/index.ts';
import { type Pending, plainRefusal, type Refused, whyFinal } from '../seating/index.ts';
import { carry, isPlain, type Plain } from './carry.ts';
import { accepted, asked, type Given, type Result } from './result.ts';
import { tell } from './send.ts';
import { about } from './whose.ts';
import { type Settled, turnDown } from './work.ts';

type Of<T extends Command['type']> = Extract<Command, { readonly type: T }>;

/** Carries out a command that was read back or asked back, given a reason, or overridden, on its own unit. */
function carryOut(given: Given, tooth: string, settled: Settled): Result {
  const { command, state, stamp } = given;
  if (command.type === 'override') return override({ state, stamp, command }, settled);
  if (!isPlain(command)) return turnDown(given, tooth, plainRefusal('nothing-asked'));
  return carry({ state, stamp, command: onUnit(command, tooth) }, settled);
}

/** The command for the unit it was meant for, whichever is worked on by the time of the answer. */
function onUnit(command: Plain, tooth: string): Plain {
  switch (command.type) {
    case 'begin':
    case 'finish':
    case 'short':
    case 'skip':
    case 'counts-clean':
    case 'start-over':
    case 'soil':
    case 'find':
      return { ...command, tooth };
    default:
      return command;
  }
}

export function confirm(given: Given<Of<'confirm'>>): Result {
  const { state, stamp } = given;
  const { pending } = state.desk.context;
  if (pending === null || !state.desk.matches({ question: 'confirming' })) {
    return turnDown(given, state.active, plainRefusal('nothing-asked'));
  }
  const settled: Settled = {
    forced: pending.forced,
    reason: pending.reason,
    confirmed: true,
    overrode: pending.refusal,
  };
  const cleared = tell(state, { type: 'lapse' });
  return carryOut({ state: cleared, stamp, command: pending.command }, pending.tooth, settled);
}

export function deny(given: Given<Of<'deny'>>): Result {
  const { state } = given;
  if (state.desk.matches({ question: 'clear' })) {
    return turnDown(given, state.active, plainRefusal('nothing-asked'));
  }
  return accepted(tell(state, { type: 'lapse' }), null, [{ id: 'cancelled' }]);
}

export function reason(given: Given<Of<'reason'>>): Result {
  const { state, command, stamp } = given;
  const { pending } = state.desk.context;
  if (pending === null || !state.desk.matches({ question: 'reasoning' })) {
    return turnDown(given, state.active, plainRefusal('nothing-asked'));
  }
  const settled: Settled = {
    forced: pending.forced,
    reason: command.reason,
    confirmed: false,
    overrode: pending.refusal,
  };
  const cleared = tell(state, { type: 'lapse' });
  return carryOut({ state: cleared, stamp, command: pending.command }, pending.tooth, settled);
}

/** Law 10: the clinician overrides the last refusal, with a reason, read back, kept as a deviation. */
export function override(given: Given<Of<'override'>>, settled: Settled | null = null): Result {
  const { state, command, stamp } = given;
  const { refused } = state.desk.context;
  if (refused === null) return turnDown(given, state.active, plainRefusal('nothing-to-override'));
  if (!refused.refusal.overridable) {
    const again = tell(state, { type: 'refused', refused });
    const { id, step, wayOn } = refused.refusal;
    const before = wayOn === step ? null : wayOn;
    const refusal = {
      ...plainRefusal('no-override'),
      step,
      wayOn: before,
      because: whyFinal(id),
    };
    return {
      state: again,
      outcome: { kind: 'refused', refusal },
      tooth: refused.tooth,
      step: refusal.step,
      calls: [about(state, refused.tooth, { id: 'refusal', refusal })],
    };
  }
  const why = settled?.reason ?? command.reason ?? null;
  if (why === null) {
    const call = about(state, refused.tooth, { id: 'ask-reason', for: 'override' });
    return wait(given, refused, { call, reason: null }, 'ask.reason');
  }
  if (settled?.confirmed !== true) {
    const { id, step, because } = refused.refusal;
    const call = about(state, refused.tooth, {
      id: 'ask-override',
      refusal: id,
      step,
      ...(because === undefined ? {} : { because }),
      reason: why,
    });
    return wait(given, refused, { call, reason: why }, 'ask.yes');
  }
  return carryOut({ state, stamp, command: refused.command }, refused.tooth, {
    forced: [...refused.forced, refused.refusal.id],
    reason: why,
    confirmed: true,
    overrode: refused.refusal,
  });
}

function wait(
  { state, command }: Given<Of<'override'>>,
  refused: Refused,
  { call, reason: why }: Pick<Pending, 'call' | 'reason'>,
  type: 'ask.yes' | 'ask.reason',
): Result {
  const pending: Pending = {
    command,
    tooth: refused.tooth,
    forced: refused.forced,
    reason: why,
    refusal: null,
    call,
  };
  const waiting = tell(state, { type, pending });
  return asked(waiting, refused.tooth, call, refused.refusal.step);
}
