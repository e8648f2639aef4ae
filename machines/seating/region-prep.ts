import { gated, unitSetup } from './setup.ts';

/** The prepared tooth. A contamination or a try-in leads back to `exposed`: clean it again (law 5). */
export const prep = unitSetup.createStateConfig({
  initial: 'arriving',
  on: {
    'finish.prep-clean': { guard: gated('finish.prep-clean'), target: '.clean' },
    'finish.pumice': { guard: gated('finish.pumice'), target: '.clean' },
    'begin.try-in': { guard: gated('begin.try-in'), target: '.exposed' },
    'soil.prep': { guard: gated('soil.prep'), target: '.exposed', actions: 'soilPrep' },
    'begin.tooth-etch': {
      guard: gated('begin.tooth-etch'),
      target: '.underAcid',
      actions: 'prepAgentOn',
    },
    'begin.bond': { guard: gated('begin.bond'), target: '.coated', actions: 'prepAgentOn' },
    'finish.prep-moist': { guard: gated('finish.prep-moist'), target: '.ready' },
    'begin.seat': { guard: gated('begin.seat'), target: '.seated' },
    'start-over': { guard: gated('start-over'), target: '.exposed' },
  },
  states: {
    arriving: {
      description: 'With a provisional or without: the case facts say',
      always: [{ guard: 'provisionalOn', target: 'covered' }, { target: 'exposed' }],
    },
    exposed: {
      description: 'Not clean: remnants, saliva or blood',
      entry: { type: 'mark', params: { prep: 'exposed' } },
    },
    covered: {
      description: 'The provisional is on',
      entry: { type: 'mark', params: { prep: 'covered' } },
      on: {
        'finish.provisional-off': { guard: gated('finish.provisional-off'), target: 'exposed' },
        // Under its provisional the prep can't be soiled further.
        'soil.prep': { guard: gated('soil.prep') },
      },
    },
    clean: {
      description: 'Pumiced and rinsed',
      entry: { type: 'mark', params: { prep: 'clean' } },
    },
    underAcid: {
      description: 'Phosphoric acid is on the tooth',
      entry: { type: 'mark', params: { prep: 'underAcid' } },
      on: {
        'finish.tooth-etch': { guard: gated('finish.tooth-etch'), actions: 'prepAgentServed' },
        'finish.tooth-etch-rinse': [
          {
            guard: gated('finish.tooth-etch-rinse', 'prepServed'),
            target: 'etched',
            actions: 'prepAgentForgotten',
          },
          {
            guard: gated('finish.tooth-etch-rinse'),
            target: 'clean',
            actions: 'prepAgentForgotten',
          },
        ],
      },
    },
    etched: {
      description: 'Etched and rinsed',
      entry: { type: 'mark', params: { prep: 'etched' } },
    },
    coated: {
      description: 'Adhesive is on, not yet thinned',
      entry: { type: 'mark', params: { prep: 'coated' } },
      on: {
        'finish.bond': { guard: gated('finish.bond'), actions: 'prepAgentServed' },
        'finish.bond-thin': [
          {
            guard: gated('finish.bond-thin', 'prepServed'),
            target: 'ready',
            actions: 'prepAgentForgotten',
          },
          { guard: gated('finish.bond-thin'), target: 'etched', actions: 'prepAgentForgotten' },
        ],
      },
    },
    ready: {
      description: 'Conditioned as the cement needs: nothing may touch it',
      entry: { type: 'mark', params: { prep: 'ready' } },
    },
    seated: {
      description: 'Under the restoration',
      entry: { type: 'mark', params: { prep: 'seated' } },
    },
  },
});
