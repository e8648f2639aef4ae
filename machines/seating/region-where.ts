import { gated, unitSetup } from './setup.ts';

/** Where the restoration is: on the bench, on the tooth uncemented, or seated. */
export const where = unitSetup.createStateConfig({
  initial: 'bench',
  states: {
    bench: {
      description: 'Out of the mouth: the only place for caustic agents and abrasion (law 2)',
      entry: { type: 'mark', params: { where: 'bench' } },
      on: {
        'begin.try-in': { guard: gated('begin.try-in'), target: 'mouth' },
        'begin.seat': { guard: gated('begin.seat'), target: 'seated' },
      },
    },
    mouth: {
      description: 'On the tooth for try-in: whatever it was, it is contaminated now (law 5)',
      entry: { type: 'mark', params: { where: 'mouth' } },
      on: { 'finish.take-out': { guard: gated('finish.take-out'), target: 'bench' } },
    },
    seated: {
      description: 'Down on the prep in cement',
      entry: { type: 'mark', params: { where: 'seated' } },
      on: { 'start-over': { guard: gated('start-over'), target: 'bench' } },
    },
  },
});
