import type { UnitEventType } from './context.ts';
import { gated, unitSetup } from './setup.ts';

const ETCHING = {
  guard: gated('begin.tooth-etch'),
  target: 'underAcid',
  actions: 'prepAgentOn',
} as const;
const BONDING = { guard: gated('begin.bond'), target: 'coated', actions: 'prepAgentOn' } as const;
const SELF_ETCHING = { ...BONDING, guard: gated('begin.bond', 'selfEtch') } as const;
const PRIMING = {
  'begin.core-primer': {
    guard: gated('begin.core-primer'),
    target: 'coated',
    actions: 'prepAgentOn',
  },
  'begin.abutment-primer': {
    guard: gated('begin.abutment-primer'),
    target: 'coated',
    actions: 'prepAgentOn',
  },
} as const;
/** Clean, once every kind of retainer is. */
const CLEANING = (type: UnitEventType) =>
  [
    { guard: gated(type, 'othersCleaned'), target: '.clean', actions: 'prepReworked' },
    { guard: gated(type), target: '.exposed', actions: 'prepReworked' },
  ] as const;
/** Roughened once more: what was put on the surface before is gone. */
const ROUGHENED = {
  'finish.prep-roughen': {
    guard: gated('finish.prep-roughen'),
    target: 'clean',
    actions: 'prepReworked',
  },
} as const;
const DRY = { guard: gated('finish.prep-dry', 'inPlan', 'prepUncoated'), target: 'ready' } as const;
const MOIST = { guard: gated('finish.prep-moist', 'inPlan'), target: 'ready' } as const;

/**
 * The prepared tooth. A contamination or a try-in leads back to `exposed`: clean it again (law 5).
 * An override lets a step through where it does not belong, but no state is earned by it there.
 */
export const prep = unitSetup.createStateConfig({
  initial: 'arriving',
  on: {
    'finish.prep-clean': CLEANING('finish.prep-clean'),
    'finish.pumice': CLEANING('finish.pumice'),
    'begin.abutment-clean': {
      guard: gated('begin.abutment-clean'),
      target: '.exposed',
      actions: 'prepReworked',
    },
    'finish.abutment-clean': CLEANING('finish.abutment-clean'),
    'begin.base-abrade': {
      guard: gated('begin.base-abrade'),
      target: '.exposed',
      actions: 'prepReworked',
    },
    'finish.base-abrade': { guard: gated('finish.base-abrade', 'inDwell'), target: '.clean' },
    'begin.try-in': { guard: gated('begin.try-in'), target: '.exposed' },
    'soil.prep': { guard: gated('soil.prep'), target: '.exposed', actions: 'soilPrep' },
    'begin.pumice': {
      guard: gated('begin.pumice'),
      target: '.exposed',
      actions: 'prepReworked',
    },
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
      on: {
        ...ROUGHENED,
        'begin.tooth-etch': ETCHING,
        'begin.bond': SELF_ETCHING,
        ...PRIMING,
        'finish.prep-moist': MOIST,
        'finish.prep-dry': DRY,
      },
    },
    underAcid: {
      description: 'Phosphoric acid is on the tooth',
      entry: { type: 'mark', params: { prep: 'underAcid' } },
      on: {
        'begin.tooth-etch': ETCHING,
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
      on: {
        ...ROUGHENED,
        'begin.tooth-etch': ETCHING,
        'begin.bond': BONDING,
        ...PRIMING,
        'finish.prep-moist': MOIST,
      },
    },
    coated: {
      description: 'Adhesive or a primer is on, not yet thinned or dried',
      entry: { type: 'mark', params: { prep: 'coated' } },
      on: {
        ...ROUGHENED,
        'begin.tooth-etch': ETCHING,
        'begin.bond': BONDING,
        ...PRIMING,
        'finish.core-primer': {
          guard: gated('finish.core-primer'),
          actions: 'prepAgentServed',
        },
        'finish.abutment-primer': {
          guard: gated('finish.abutment-primer'),
          actions: 'prepAgentServed',
        },
        'finish.prep-dry': [
          {
            guard: gated('finish.prep-dry', 'inPlan', 'prepServed', 'ownPrimer'),
            target: 'ready',
            actions: 'prepAgentForgotten',
          },
          {
            guard: gated('finish.prep-dry'),
            target: 'clean',
            actions: 'prepAgentForgotten',
          },
        ],
        'finish.bond': { guard: gated('finish.bond'), actions: 'prepAgentServed' },
        'finish.bond-thin': [
          {
            guard: gated('finish.bond-thin', 'prepServed', 'bondOn'),
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
      on: {
        ...ROUGHENED,
        'begin.tooth-etch': ETCHING,
        'begin.bond': BONDING,
        ...PRIMING,
      },
    },
    seated: {
      description: 'Under the restoration',
      entry: { type: 'mark', params: { prep: 'seated' } },
      // Blood at the margin of a seated crown is kept in the record; the prep is out of its reach.
      on: { 'soil.prep': { guard: gated('soil.prep') } },
    },
  },
});
