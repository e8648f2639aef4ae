import { gated, unitSetup } from './setup.ts';

/** The cement from the mix to the set. */
export const cement = unitSetup.createStateConfig({
  initial: 'none',
  on: {
    'begin.load': { guard: gated('begin.load'), target: '.loaded' },
    'begin.seat': { guard: gated('begin.seat'), target: '.seated' },
    'start-over': { guard: gated('start-over'), target: '.none' },
  },
  states: {
    none: {
      description: 'Not mixed',
      entry: { type: 'mark', params: { cement: 'none' } },
      on: { 'begin.mix': { guard: gated('begin.mix'), target: 'mixed', actions: 'mixed' } },
    },
    mixed: {
      description: 'The working time runs',
      entry: { type: 'mark', params: { cement: 'mixed' } },
      on: {
        'begin.mix': { guard: gated('begin.mix'), actions: 'mixed' },
      },
    },
    loaded: {
      description: 'In the restoration',
      entry: { type: 'mark', params: { cement: 'loaded' } },
      on: { 'soil.intaglio': { guard: gated('soil.intaglio'), target: 'none' } },
    },
    seated: {
      description: 'Under the restoration, not yet tacked or gelled',
      entry: { type: 'mark', params: { cement: 'seated' } },
      on: {
        'finish.tack': { guard: gated('finish.tack'), target: 'tacked' },
        'short.tack': { guard: gated('short.tack'), target: 'tacked' },
        'finish.gel-wait': { guard: gated('finish.gel-wait'), target: 'tacked' },
        'short.gel-wait': { guard: gated('short.gel-wait'), target: 'tacked' },
        'finish.flash': { guard: gated('finish.flash'), target: 'cleared' },
      },
    },
    tacked: {
      description: 'Firm enough to clear',
      entry: { type: 'mark', params: { cement: 'tacked' } },
      on: { 'finish.flash': { guard: gated('finish.flash'), target: 'cleared' } },
    },
    cleared: {
      description: 'Excess off; cure or wait',
      entry: { type: 'mark', params: { cement: 'cleared' } },
      on: {
        'finish.cure-occlusal': {
          guard: gated('finish.cure-occlusal', 'lightSuffices', 'othersCured'),
          target: 'set',
        },
        'short.cure-occlusal': {
          guard: gated('short.cure-occlusal', 'lightSuffices', 'othersCured'),
          target: 'set',
        },
        'finish.cure-buccal': {
          guard: gated('finish.cure-buccal', 'lightSuffices', 'othersCured'),
          target: 'set',
        },
        'short.cure-buccal': {
          guard: gated('short.cure-buccal', 'lightSuffices', 'othersCured'),
          target: 'set',
        },
        'finish.cure-lingual': {
          guard: gated('finish.cure-lingual', 'lightSuffices', 'othersCured'),
          target: 'set',
        },
        'short.cure-lingual': {
          guard: gated('short.cure-lingual', 'lightSuffices', 'othersCured'),
          target: 'set',
        },
        'finish.set': { guard: gated('finish.set'), target: 'set' },
        'short.set': { guard: gated('short.set'), target: 'set' },
      },
    },
    set: {
      description: 'Cured or set',
      entry: { type: 'mark', params: { cement: 'set' } },
    },
  },
});
