import { gated, unitSetup } from './setup.ts';

/** The isolated working area. Whatever wets it also ends a dry check that is being watched (law 6). */
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
      on: {
        // Isolated anew: what was watched before was another field.
        'finish.isolate': { guard: gated('finish.isolate'), actions: 'soilField' },
        'finish.dry-check': { guard: gated('finish.dry-check'), target: 'dry' },
        'soil.field': { guard: gated('soil.field'), actions: 'soilField' },
        'soil.prep': { guard: gated('soil.prep'), actions: 'soilField' },
        'begin.pumice': { guard: gated('begin.pumice'), actions: 'soilField' },
        'finish.pumice': { guard: gated('finish.pumice'), actions: 'soilField' },
        'begin.abutment-clean': { guard: gated('begin.abutment-clean'), actions: 'soilField' },
        'finish.abutment-clean': { guard: gated('finish.abutment-clean'), actions: 'soilField' },
        'begin.prep-roughen': { guard: gated('begin.prep-roughen'), actions: 'soilField' },
        'finish.prep-roughen': { guard: gated('finish.prep-roughen'), actions: 'soilField' },
        'finish.prep-clean': { guard: gated('finish.prep-clean'), actions: 'soilField' },
        'begin.try-in': { guard: gated('begin.try-in'), actions: 'soilField' },
      },
    },
    dry: {
      description: 'Watched for the dry check and stayed dry',
      entry: { type: 'mark', params: { field: 'dry' } },
      on: {
        'finish.isolate': {
          guard: gated('finish.isolate'),
          target: 'isolated',
          actions: 'soilField',
        },
        'soil.field': { guard: gated('soil.field'), target: 'isolated', actions: 'soilField' },
        'soil.prep': { guard: gated('soil.prep'), target: 'isolated', actions: 'soilField' },
        'begin.pumice': { guard: gated('begin.pumice'), target: 'isolated', actions: 'soilField' },
        'finish.pumice': {
          guard: gated('finish.pumice'),
          target: 'isolated',
          actions: 'soilField',
        },
        'begin.abutment-clean': {
          guard: gated('begin.abutment-clean'),
          target: 'isolated',
          actions: 'soilField',
        },
        'finish.abutment-clean': {
          guard: gated('finish.abutment-clean'),
          target: 'isolated',
          actions: 'soilField',
        },
        'begin.prep-roughen': {
          guard: gated('begin.prep-roughen'),
          target: 'isolated',
          actions: 'soilField',
        },
        'finish.prep-roughen': {
          guard: gated('finish.prep-roughen'),
          target: 'isolated',
          actions: 'soilField',
        },
        'finish.prep-clean': {
          guard: gated('finish.prep-clean'),
          target: 'isolated',
          actions: 'soilField',
        },
        'begin.try-in': { guard: gated('begin.try-in'), target: 'isolated', actions: 'soilField' },
        'start-over': { guard: gated('start-over'), target: 'isolated', actions: 'soilField' },
      },
    },
  },
});
