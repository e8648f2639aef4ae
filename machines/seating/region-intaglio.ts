import type { UnitEventType } from './context.ts';
import { gated, unitSetup } from './setup.ts';

const rinsing = (type: UnitEventType) =>
  ({ guard: gated(type), target: 'rinsed', actions: 'reworked' }) as const;
/** Water on a dry surface, whatever it was meant to take off: dry it again, and prime it again if it was. */
const RINSED = {
  'begin.intaglio-rinse': rinsing('begin.intaglio-rinse'),
  'finish.intaglio-rinse': rinsing('finish.intaglio-rinse'),
  'begin.cleaner-rinse': rinsing('begin.cleaner-rinse'),
  'finish.cleaner-rinse': rinsing('finish.cleaner-rinse'),
  'begin.acid-clean-rinse': rinsing('begin.acid-clean-rinse'),
  'finish.acid-clean-rinse': rinsing('finish.acid-clean-rinse'),
  'begin.porcelain-etch-rinse': rinsing('begin.porcelain-etch-rinse'),
  'finish.porcelain-etch-rinse': rinsing('finish.porcelain-etch-rinse'),
} as const;

const coating = (type: UnitEventType) =>
  ({ guard: gated(type), target: 'coated', actions: 'intaglioAgentOn' }) as const;
const COATED = {
  'begin.silane': coating('begin.silane'),
  'begin.zirconia-primer': coating('begin.zirconia-primer'),
  'begin.metal-primer': coating('begin.metal-primer'),
} as const;

/** The ceramic's inner surface. Every contamination leads back to `soiled` (law 5). */
export const intaglio = unitSetup.createStateConfig({
  initial: 'soiled',
  on: {
    'soil.intaglio': { guard: gated('soil.intaglio'), target: '.soiled', actions: 'soilIntaglio' },
    'begin.try-in': { guard: gated('begin.try-in'), target: '.soiled', actions: 'tryIn' },
    'begin.cleaner': {
      guard: gated('begin.cleaner'),
      target: '.underAgent',
      actions: ['intaglioAgentOn', 'reworked'],
    },
    'begin.acid-clean': {
      guard: gated('begin.acid-clean'),
      target: '.underAgent',
      actions: ['intaglioAgentOn', 'reworked'],
    },
    'begin.porcelain-etch': {
      guard: gated('begin.porcelain-etch'),
      target: '.underAgent',
      actions: ['intaglioAgentOn', 'reworked'],
    },
    // Whatever coat there was goes with the first grain, not when the blast ends.
    'begin.abrade': { guard: gated('begin.abrade'), target: '.rinsed', actions: 'reworked' },
    'finish.abrade': {
      guard: gated('finish.abrade', 'inDwell'),
      target: '.rinsed',
      actions: 'abraded',
    },
    'counts-clean': { guard: gated('counts-clean'), target: '.rinsed', actions: 'countClean' },
    'begin.load': { guard: gated('begin.load'), target: '.loaded' },
    'begin.seat': { guard: gated('begin.seat'), target: '.seated' },
    'start-over': { guard: gated('start-over'), target: '.soiled', actions: 'startOver' },
  },
  states: {
    soiled: {
      description: 'Handled, tried in or contaminated: nothing put on it counts',
      entry: { type: 'mark', params: { intaglio: 'soiled' } },
      on: {
        'begin.fit-paste': { guard: gated('begin.fit-paste'), actions: 'siliconeIn' },
        'finish.fit-paste': { guard: gated('finish.fit-paste'), actions: 'siliconeIn' },
        'begin.shade': { guard: gated('begin.shade', 'shadePaste'), actions: 'shadePasteIn' },
        'finish.shade': { guard: gated('finish.shade', 'shadePaste'), actions: 'shadePasteIn' },
        'finish.intaglio-rinse': {
          guard: gated('finish.intaglio-rinse'),
          actions: 'rinsedWithWater',
        },
        'finish.intaglio-dry': [
          { guard: gated('finish.intaglio-dry', 'readyForPrimer'), target: 'conditioned' },
          { guard: gated('finish.intaglio-dry', 'nothingLeft'), target: 'clean' },
        ],
      },
    },
    underAgent: {
      description: 'Cleaner, phosphoric or hydrofluoric acid lies on it until it is rinsed off',
      entry: { type: 'mark', params: { intaglio: 'underAgent' } },
      on: {
        'soil.intaglio': { guard: gated('soil.intaglio'), actions: 'soilIntaglio' },
        'start-over': { guard: gated('start-over'), actions: 'startOver' },
        'finish.cleaner': { guard: gated('finish.cleaner'), actions: 'intaglioAgentServed' },
        'finish.acid-clean': { guard: gated('finish.acid-clean'), actions: 'intaglioAgentServed' },
        'finish.porcelain-etch': {
          guard: gated('finish.porcelain-etch'),
          actions: 'intaglioAgentServed',
        },
        'finish.cleaner-rinse': {
          guard: gated('finish.cleaner-rinse'),
          target: 'rinsed',
          actions: 'intaglioAgentOff',
        },
        'finish.acid-clean-rinse': {
          guard: gated('finish.acid-clean-rinse'),
          target: 'rinsed',
          actions: 'intaglioAgentOff',
        },
        'finish.porcelain-etch-rinse': {
          guard: gated('finish.porcelain-etch-rinse'),
          target: 'rinsed',
          actions: 'intaglioAgentOff',
        },
      },
    },
    rinsed: {
      description: 'Under water or the blast, or wet from it; not yet dry',
      entry: { type: 'mark', params: { intaglio: 'rinsed' } },
      on: {
        'finish.intaglio-dry': [
          { guard: gated('finish.intaglio-dry', 'readyForPrimer'), target: 'conditioned' },
          { guard: gated('finish.intaglio-dry', 'nothingLeft'), target: 'clean' },
          { guard: gated('finish.intaglio-dry'), target: 'soiled' },
        ],
      },
    },
    clean: {
      description: 'Clean and dry, without the texture its material needs',
      entry: { type: 'mark', params: { intaglio: 'clean' } },
      on: RINSED,
    },
    conditioned: {
      description: 'Clean, dry, and etched or abraded as its material needs',
      entry: { type: 'mark', params: { intaglio: 'conditioned' } },
      on: {
        ...RINSED,
        ...COATED,
      },
    },
    coated: {
      description: 'Silane or phosphate primer is on, not yet air-dried',
      entry: { type: 'mark', params: { intaglio: 'coated' } },
      on: {
        ...RINSED,
        ...COATED,
        'finish.silane': { guard: gated('finish.silane'), actions: 'intaglioAgentServed' },
        'finish.zirconia-primer': {
          guard: gated('finish.zirconia-primer'),
          actions: 'intaglioAgentServed',
        },
        'finish.metal-primer': {
          guard: gated('finish.metal-primer'),
          actions: 'intaglioAgentServed',
        },
        'finish.primer-dry': [
          {
            guard: gated('finish.primer-dry', 'intaglioServed', 'rightPrimer'),
            target: 'primed',
            actions: 'intaglioAgentForgotten',
          },
          {
            guard: gated('finish.primer-dry'),
            target: 'conditioned',
            actions: 'intaglioAgentForgotten',
          },
        ],
      },
    },
    primed: {
      description: 'Ready to load: touch nothing',
      entry: { type: 'mark', params: { intaglio: 'primed' } },
      on: {
        ...RINSED,
        ...COATED,
      },
    },
    loaded: {
      description: 'Cement is in it',
      entry: { type: 'mark', params: { intaglio: 'loaded' } },
    },
    seated: {
      description: 'On the prep for good',
      entry: { type: 'mark', params: { intaglio: 'seated' } },
    },
  },
});
