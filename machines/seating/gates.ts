import type { RefusalId } from '../contract/index.ts';
import type { Facts, UnitEventType } from './context.ts';
import { RULES, type RuleName } from './rules.ts';

/** A surface agent may begin only on the bench, with nothing else working on the intaglio. */
const AGENT = [
  'outOfMouth',
  'onShelf',
  'planned',
  'cementFree',
  'intaglioFree',
  'agentRinsed',
  'dwellNotRunning',
] as const;
const COAT = [
  'outOfMouth',
  'cementFree',
  'intaglioConditioned',
  'fresh',
  'onShelf',
  'planned',
  'intaglioFree',
  'dwellNotRunning',
] as const;
/** A prep that takes its cement without an adhesive. */
const BARE = ['notSeated', 'prepClean', 'prepRoughened', 'toothAcidOff', 'fieldDry'] as const;
const BEGIN = ['planned', 'dwellNotRunning'] as const;
const FINISH = ['planned', 'dwellRuns', 'dwellServed'] as const;

/**
 * What must hold before an event is carried out: rules in the order in which a refusal should name them.
 * Laws 2 and 3 come first, so that the dangerous reason is the one that is said.
 */
const GATES: Partial<Record<UnitEventType, readonly RuleName[]>> = {
  'finish.provisional-off': ['notSeated'],
  'finish.prep-clean': ['provisionalOff', 'notSeated'],
  'finish.abutment-in': ['provisionalOff', 'notSeated', 'planned'],
  'begin.try-in': ['agentOff', 'notSeated', 'provisionalOff', 'notInMouthYet', 'cementFree'],
  'finish.try-in': ['notSeated', 'inMouth'],
  'finish.contacts': ['inMouth'],
  'finish.margins': ['inMouth'],
  // Silicone that goes in unplanned must be known all the same.
  'begin.fit-paste': ['notSeated', 'inMouth'],
  'finish.fit-paste': ['notSeated', 'inMouth'],
  'begin.shade': ['notSeated', 'inMouth'],
  'finish.shade': ['notSeated', 'inMouth'],
  'finish.bite-before': ['inMouth'],
  'finish.approval': ['notSeated'],
  'begin.take-out': ['notSeated', 'inMouth'],
  'finish.take-out': ['notSeated', 'inMouth'],

  'begin.intaglio-rinse': ['outOfMouth', 'cementFree', 'intaglioFree', ...BEGIN],
  'finish.intaglio-rinse': ['outOfMouth', 'cementFree', ...FINISH],
  'begin.cleaner': ['outOfMouth', 'cleansHere', 'takesOffSilicone', ...AGENT],
  'begin.acid-clean': [
    'noAcidOnOxide',
    'outOfMouth',
    'cleansHere',
    'takesOffSilicone',
    'takesOffAll',
    ...AGENT,
  ],
  'begin.porcelain-etch': ['etchableCeramic', ...AGENT],
  'begin.abrade': ['notGlass', 'outOfMouth', 'agentOff', ...AGENT],
  'finish.abrade': ['notGlass', 'outOfMouth', 'agentOff', 'cementFree', ...FINISH],
  // What may never be begun may not be called done either, not even as something that was not planned.
  'finish.cleaner': ['outOfMouth', ...FINISH],
  'finish.acid-clean': ['noAcidOnOxide', 'outOfMouth', ...FINISH],
  'finish.porcelain-etch': ['etchableCeramic', 'outOfMouth', ...FINISH],
  // What lies on it may always be rinsed off, planned or not.
  'begin.cleaner-rinse': [
    'outOfMouth',
    'cementFree',
    'cleanerWasOn',
    'intaglioFree',
    'dwellNotRunning',
  ],
  'finish.cleaner-rinse': ['outOfMouth', 'cementFree', 'cleanerWasOn', 'dwellRuns', 'dwellServed'],
  'begin.acid-clean-rinse': [
    'outOfMouth',
    'cementFree',
    'acidWasOn',
    'intaglioFree',
    'dwellNotRunning',
  ],
  'finish.acid-clean-rinse': ['outOfMouth', 'cementFree', 'acidWasOn', 'dwellRuns', 'dwellServed'],
  'begin.porcelain-etch-rinse': [
    'outOfMouth',
    'cementFree',
    'etchWasOn',
    'intaglioFree',
    'dwellNotRunning',
  ],
  'finish.porcelain-etch-rinse': [
    'outOfMouth',
    'cementFree',
    'etchWasOn',
    'dwellRuns',
    'dwellServed',
  ],
  'begin.intaglio-dry': ['outOfMouth', 'agentRinsed', 'cementFree', ...BEGIN],
  'finish.intaglio-dry': ['outOfMouth', 'agentRinsed', 'cementFree', 'intaglioFree', ...FINISH],
  'begin.silane': ['silaneHasSilica', ...COAT],
  'begin.zirconia-primer': ['acidOffOxide', 'primerHasOxide', 'primerFits', ...COAT],
  'begin.metal-primer': ['acidOffOxide', 'primerFits', ...COAT],
  'finish.silane': ['silaneHasSilica', ...FINISH],
  'begin.primer-dry': ['outOfMouth', 'cementFree', 'coatWasOn', 'intaglioFree', ...BEGIN],
  'finish.primer-dry': ['outOfMouth', 'coatWasOn', ...FINISH],
  'counts-clean': ['outOfMouth', 'agentOff', 'acidOffOxide', 'takesOffSilicone', 'cementFree'],

  'finish.isolate': ['prepBare', 'notSeated'],
  'begin.pumice': ['prepBare', 'notSeated', 'cementFree', ...BEGIN],
  'finish.pumice': ['prepBare', 'notSeated', 'cementFree', ...FINISH],
  'begin.abutment-clean': ['prepBare', 'notSeated', 'cementFree', ...BEGIN],
  'finish.abutment-clean': ['prepBare', 'notSeated', 'cementFree', ...FINISH],
  // Blasting the base is blasting too: on the bench, never in the mouth (law 2).
  'begin.base-abrade': ['outOfMouth', 'notSeated', 'cementFree', 'onShelf', ...BEGIN],
  'finish.base-abrade': ['outOfMouth', 'notSeated', 'cementFree', ...FINISH],
  'begin.prep-roughen': ['notSeated', 'outOfMouth', 'prepClean', 'fieldIsolated', ...BEGIN],
  'finish.prep-roughen': ['notSeated', 'outOfMouth', 'prepClean', 'fieldIsolated', ...FINISH],
  'begin.dry-check': ['notSeated', 'fieldIsolated', ...BEGIN],
  'finish.dry-check': ['notSeated', 'fieldIsolated', ...FINISH],
  'begin.tooth-etch': [
    'notSeated',
    'prepClean',
    'prepRoughened',
    'acidSuitsCement',
    'fieldDry',
    'onShelf',
    ...BEGIN,
  ],
  'begin.tooth-etch-rinse': ['toothAcidWasOn', ...BEGIN],
  'finish.tooth-etch-rinse': ['toothAcidWasOn', ...FINISH],
  'begin.core-primer': [
    'notSeated',
    'prepClean',
    'prepRoughened',
    'toothAcidOff',
    'toothEtched',
    'fieldDry',
    'onShelf',
    'fresh',
    ...BEGIN,
  ],
  'begin.abutment-primer': [
    'notSeated',
    'prepClean',
    'toothAcidOff',
    'toothEtched',
    'fieldDry',
    'onShelf',
    'fresh',
    ...BEGIN,
  ],
  'begin.bond': [
    'notSeated',
    'prepClean',
    'oxygenGone',
    'prepRoughened',
    'toothAcidOff',
    'toothEtched',
    'prepPrimed',
    'fieldDry',
    'onShelf',
    'fresh',
    ...BEGIN,
  ],
  'begin.bond-thin': ['bondWasOn', ...BEGIN],
  'finish.bond-thin': ['bondWasOn', ...FINISH],
  'begin.prep-moist': [...BARE, ...BEGIN],
  'finish.prep-moist': [...BARE, ...FINISH],
  'begin.prep-dry': [...BARE, 'prepPrimed', ...BEGIN],
  'finish.prep-dry': [...BARE, 'prepPrimed', ...FINISH],

  'begin.mix': [
    'notSeated',
    'outOfMouth',
    'agentOff',
    'notMixed',
    'notLoadedYet',
    'intaglioPrimed',
    'prepReady',
    'oxygenGone',
    'fieldDry',
    'fresh',
  ],
  'begin.load': [
    'notSeated',
    'outOfMouth',
    'agentOff',
    'notLoadedYet',
    'mixed',
    'inWorkingTime',
    'intaglioPrimed',
    'oxygenGone',
    'fresh',
  ],
  'begin.seat': [
    'agentOff',
    'notSeated',
    'outOfMouth',
    'intaglioPrimed',
    'loaded',
    'inWorkingTime',
    'prepReady',
    'oxygenGone',
    'fieldDry',
    'fresh',
  ],
  'finish.seat': ['seated', ...FINISH],
  'begin.tack': ['seated', 'heldStill', ...BEGIN],
  'begin.gel-wait': ['seated', 'heldStill', ...BEGIN],
  'finish.flash': ['seated', 'tackedFirst'],
  'finish.floss': ['seated', 'tackedFirst'],
  'finish.gel': ['seated', 'flashOff'],
  'begin.cure-occlusal': ['seated', 'flashOff', ...BEGIN],
  'begin.cure-buccal': ['seated', 'flashOff', ...BEGIN],
  'begin.cure-lingual': ['seated', 'flashOff', ...BEGIN],
  'begin.set': ['seated', 'flashOff', ...BEGIN],
  'finish.joint-finish': ['seated', 'cementSet', 'planned'],
  'finish.screw-in': ['seated', 'cementSet', 'jointFinished', 'planned'],
  'finish.torque': ['seated', 'cementSet', 'screwedIn', 'planned'],
  'finish.access-close': ['seated', 'cementSet', 'torqued', 'planned'],
  'finish.isolation-out': ['seated', 'cementSet'],
  'finish.residual': ['seated', 'cementSet'],
  'finish.bite-after': ['seated', 'cementSet'],
  'finish.polish': ['seated', 'cementSet'],

  'soil.intaglio': ['notSeated'],
  'start-over': ['cementOn', 'notSetYet'],
  back: ['hasBefore'],
  hold: ['someDwellRuns', 'holdable'],
  release: ['someDwellHeld'],
  add: ['someDwellRuns'],
};

/** Rules for an event; those not listed above ask only that the step is planned, and its dwell served. */
export function gate(type: UnitEventType): readonly RuleName[] {
  const own = GATES[type];
  if (own !== undefined) return own;
  if (type.startsWith('begin.')) return BEGIN;
  if (type.startsWith('finish.')) return FINISH;
  if (type.startsWith('short.')) return ['planned', 'ownDwell'];
  if (type.startsWith('skip.')) return ['planned', 'notInDwell'];
  return [];
}

/** The first rule that stands in an event's way and is not overridden; null when it would be accepted. */
export function standing(facts: Facts): RuleName | null {
  const against = (name: RuleName): boolean => {
    const why = RULES[name](facts);
    return why !== null && !facts.event.forced.includes(why);
  };
  return gate(facts.event.type).find(against) ?? null;
}

/** Why an event would be refused now, the first reason that is not overridden; null when it would be accepted. */
export function refusalOf(facts: Facts): RefusalId | null {
  const name = standing(facts);
  return name === null ? null : RULES[name](facts);
}
