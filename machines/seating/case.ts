import { assign, setup } from 'xstate';
import { phantom } from './phantom.ts';
import type { Call, Command, Reason, Refusal, RefusalId } from '../contract/index.ts';

/** A command that waits for a reason or a yes. */
export interface Pending {
  readonly command: Command;
  readonly tooth: string;
  readonly forced: readonly RefusalId[];
  readonly reason: Reason | null;
  /** What the deviation will say was overridden. */
  readonly refusal: Refusal | null;
  readonly call: Call;
}

/** The last command refused, kept so that it can be overridden. */
export interface Refused {
  readonly command: Command;
  readonly tooth: string;
  readonly forced: readonly RefusalId[];
  readonly refusal: Refusal;
}

interface CaseContext {
  readonly pending: Pending | null;
  readonly refused: Refused | null;
}

type CaseEvent =
  | { readonly type: 'pause' | 'resume' | 'stop' | 'close' | 'lapse' | 'settled' }
  | { readonly type: 'ask.yes' | 'ask.reason'; readonly pending: Pending }
  | { readonly type: 'refused'; readonly refused: Refused };

/** The appointment: its pace, and the question that waits for an answer. */
export const caseMachine = setup({
  types: phantom<{ context: CaseContext; events: CaseEvent }>(),
  actions: {
    keepPending: assign({
      pending: ({ event, context }) => ('pending' in event ? event.pending : context.pending),
    }),
    dropPending: assign({ pending: null }),
    keepRefused: assign({
      refused: ({ event, context }) => ('refused' in event ? event.refused : context.refused),
    }),
    dropRefused: assign({ refused: null }),
  },
}).createMachine({
  id: 'case',
  type: 'parallel',
  context: { pending: null, refused: null },
  states: {
    pace: {
      initial: 'going',
      states: {
        going: { on: { pause: 'paused', stop: 'stopped', close: 'closed' } },
        paused: {
          description: 'Prompts rest; dwells run on, because chemistry does',
          on: { resume: 'going', stop: 'stopped', close: 'closed' },
        },
        stopped: {
          description: 'Stop everything: only safe commands until resumed',
          on: { resume: 'going', close: 'closed' },
        },
        closed: { type: 'final' },
      },
    },
    question: {
      initial: 'clear',
      on: {
        'ask.yes': { target: '.confirming', actions: 'keepPending' },
        'ask.reason': { target: '.reasoning', actions: 'keepPending' },
        lapse: { target: '.clear', actions: 'dropPending' },
        stop: { target: '.clear', actions: 'dropPending' },
        settled: { target: '.clear', actions: ['dropPending', 'dropRefused'] },
        refused: { target: '.clear', actions: ['dropPending', 'keepRefused'] },
      },
      states: {
        clear: { description: 'Nothing asked' },
        confirming: { description: 'Read back; waits for yes or no (law 8)' },
        reasoning: { description: 'Waits for a reason' },
      },
    },
  },
});
