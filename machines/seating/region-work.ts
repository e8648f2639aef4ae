import { not } from 'xstate';
import { gated, unitSetup } from './setup.ts';

/** The dwells that run: any number, each for its own step. */
export const dwells = unitSetup.createStateConfig({
  initial: 'idle',
  on: {
    'begin.*': { guard: 'granted', actions: 'startDwell' },
    'finish.*': { guard: 'granted', actions: 'endDwell' },
    'short.*': { guard: 'granted', actions: 'endDwell' },
    hold: { guard: gated('hold'), actions: 'holdDwells' },
    release: { guard: gated('release'), actions: 'releaseDwells' },
    add: { guard: gated('add'), actions: 'addToDwell' },
  },
  states: {
    idle: {
      description: 'No dwell runs',
      always: { guard: 'dwellsLeft', target: 'running' },
    },
    running: {
      description: 'At least one dwell runs; its time is computed from the entries',
      always: { guard: not('dwellsLeft'), target: 'idle' },
    },
  },
});

/** The step pointer: it marks what is done and where the work is. It never moves by itself. */
export const pointer = unitSetup.createStateConfig({
  initial: 'working',
  on: {
    'begin.*': { guard: 'granted', actions: ['keepTimes', 'stepDone', 'accept'] },
    'finish.*': { guard: 'granted', actions: ['keepTimes', 'stepDone', 'accept'] },
    'short.*': { guard: 'granted', actions: ['keepTimes', 'stepDone', 'accept'] },
    'skip.*': { guard: 'granted', actions: ['keepTimes', 'stepDone', 'accept'] },
    'soil.*': { guard: 'granted', actions: ['keepTimes', 'accept'] },
    'counts-clean': { guard: gated('counts-clean'), actions: 'accept' },
    'start-over': { guard: gated('start-over'), actions: ['keepTimes', 'accept'] },
    find: { guard: gated('find'), actions: ['noteFinding', 'accept'] },
    back: { guard: gated('back'), actions: ['goBack', 'accept'] },
    forward: { guard: gated('forward'), actions: ['goForward', 'accept'] },
    hold: { guard: gated('hold'), actions: 'accept' },
    release: { guard: gated('release'), actions: 'accept' },
    add: { guard: gated('add'), actions: 'accept' },
  },
  states: {
    working: {
      description: 'Steps are open',
      always: { guard: 'allDone', target: 'finished' },
    },
    finished: {
      description: 'Every step is done or skipped',
      always: { guard: not('allDone'), target: 'working' },
    },
  },
});
