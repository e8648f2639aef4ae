import { gated, unitSetup } from './setup.ts';

/** The isolated working area. */
export const field = unitSetup.createStateConfig({
  initial: 'open',
  on: {
    'finish.isolation-out': { guard: gated('finish.isolation-out'), target: '.open' },
  },
  states: {
    open: {
      description: 'No isolation',
      entry: { type: 'mark', params: { field: 'open' } },
      on: { 'finish.isolate': { guard: gated('finish.isolate'), target: 'isolated' } },
    },
    isolated: {
      description: 'Dam or rolls on; not shown to be dry',
      entry: { type: 'mark', params: { field: 'isolated' } },
      on: { 'finish.dry-check': { guard: gated('finish.dry-check'), target: 'dry' } },
    },
    dry: {
      description: 'Watched for the dry check and stayed dry',
      entry: { type: 'mark', params: { field: 'dry' } },
      on: {
        'soil.field': { guard: gated('soil.field'), target: 'isolated', actions: 'soilField' },
        'soil.prep': { guard: gated('soil.prep'), target: 'isolated', actions: 'soilField' },
        'finish.pumice': { guard: gated('finish.pumice'), target: 'isolated' },
        'begin.try-in': { guard: gated('begin.try-in'), target: 'isolated', actions: 'soilField' },
      },
    },
  },
});
