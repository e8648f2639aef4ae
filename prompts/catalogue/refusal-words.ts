/** Why a command was refused, and the way on when the machine names no step for it. */
import type { CauseId, RefusalId } from '../../machines/contract/index.ts';

/** Words of one refusal: law 9 wants both. */
export interface RefusalWords {
  readonly why: string;
  readonly wayOn: string;
}

/** Wording of every refusal. */
export const REFUSAL_WORDS = {
  'in-mouth': { why: 'Never in the mouth. It burns.', wayOn: 'Take it out first.' },
  'agent-still-on': {
    why: 'Something that burns is still on it.',
    wayOn: 'Rinse it off first.',
  },
  'etch-not-etchable': {
    why: 'Porcelain etch is not for this material.',
    wayOn: 'Sandblast it and prime it.',
  },
  'acid-before-primer': {
    why: 'Phosphoric acid takes the place of the primer here.',
    wayOn: 'Use the cleaner or sandblast it.',
  },
  'silane-on-zirconia': {
    why: 'Silane does not bind to this material.',
    wayOn: 'Use its own primer.',
  },
  'abrade-glass': {
    why: 'Sandblasting chips and weakens glass ceramic.',
    wayOn: 'Use porcelain etch.',
  },
  'primer-on-glass': {
    why: 'Zirconia primer alone does not bind glass ceramic.',
    wayOn: 'Use silane.',
  },
  'wrong-primer': {
    why: 'That primer does not bind to this material.',
    wayOn: 'Use its own primer.',
  },
  'cleaner-on-glass': {
    why: 'That does not clean this material.',
    wayOn: 'Etch or sandblast it.',
  },
  'acid-on-dentin': {
    why: 'Acid on dentin weakens this cement.',
    wayOn: 'Clean with pumice, and leave it moist.',
  },
  'intaglio-soiled': { why: 'The inside is not clean.', wayOn: 'Clean it first.' },
  'silicone-needs-etch': {
    why: 'Fit paste was in it. Only etching takes silicone off.',
    wayOn: 'Etch it again.',
  },
  'silicone-needs-abrasion': {
    why: 'Fit paste was in it. Only sandblasting takes silicone off.',
    wayOn: 'Sandblast it again.',
  },
  'intaglio-not-conditioned': {
    why: 'The inside is not roughened.',
    wayOn: 'Etch or sandblast it first.',
  },
  'intaglio-not-primed': {
    why: 'The inside is not primed.',
    wayOn: 'Prime it first.',
  },
  'intaglio-wet': { why: 'The inside is wet.', wayOn: 'Dry it first.' },
  'intaglio-busy': {
    why: 'Something else is still on it.',
    wayOn: 'Finish that first.',
  },
  'not-rinsed': { why: 'It is not rinsed yet.', wayOn: 'Rinse it first.' },
  'surface-stale': {
    why: 'It has stood too long since then.',
    wayOn: 'Prepare that surface again.',
  },
  'prep-not-ready': {
    why: 'The prep is not ready for cement.',
    wayOn: 'Condition the tooth first.',
  },
  'prep-not-clean': { why: 'The prep is not clean.', wayOn: 'Clean the prep first.' },
  'peroxide-on-tooth': {
    why: 'Peroxide was on the tooth. Its oxygen keeps this cement from bonding.',
    wayOn: 'Bond it another day, or override it with a reason.',
  },
  'field-open': { why: 'The field is not isolated.', wayOn: 'Isolate first.' },
  'field-wet': { why: 'The field is wet.', wayOn: 'Dry the field first.' },
  'not-mixed': { why: 'No cement is mixed.', wayOn: 'Mix first.' },
  'not-loaded': { why: 'No cement is in it.', wayOn: 'Load it first.' },
  'mixed-already': { why: 'Cement is mixed already.', wayOn: 'Seat that, or start over.' },
  'working-time-over': {
    why: 'The working time is over. The cement is setting.',
    wayOn: 'Wipe it out and start over.',
  },
  'dwell-too-short': { why: 'Not long enough.', wayOn: 'Wait, or end it short with a reason.' },
  'dwell-running': { why: 'A timer is still running.', wayOn: 'Let it end first.' },
  'no-dwell': { why: 'No timer is running.', wayOn: 'Start the step first.' },
  'cannot-hold': {
    why: 'This timer cannot be held. It goes on working.',
    wayOn: 'Let it run, or end the step.',
  },
  'provisional-on': { why: 'The provisional is still on.', wayOn: 'Take it off first.' },
  'not-in-mouth': { why: 'It is not in the mouth.', wayOn: 'Try it in first.' },
  'already-in-mouth': { why: 'It is in the mouth already.', wayOn: 'Go on from there.' },
  'not-seated': { why: 'It is not seated.', wayOn: 'Seat it first.' },
  'seated-already': { why: 'It is seated already.', wayOn: 'Go on from there.' },
  first: { why: 'Something comes before that.', wayOn: 'Do the step on the screen first.' },
  'not-planned': {
    why: 'That is not in the plan for this unit.',
    wayOn: 'Do the step on the screen.',
  },
  'not-on-shelf': {
    why: 'That is not on the shelf.',
    wayOn: 'Put it on the shelf, or do without.',
  },
  'reason-needed': { why: 'That needs a reason.', wayOn: 'Say the reason.' },
  'nothing-asked': { why: 'Nothing was asked.', wayOn: 'Say the step.' },
  'nothing-to-undo': { why: 'There is nothing to undo.', wayOn: 'Carry on.' },
  'cannot-undo': { why: 'What is done to the tooth cannot be undone.', wayOn: 'Go on from here.' },
  'nothing-to-override': {
    why: 'Nothing was refused.',
    wayOn: 'Say the step, then override.',
  },
  'no-override': { why: 'That cannot be overridden.', wayOn: 'Do it as planned.' },
  'nothing-before': { why: 'This is the first step.', wayOn: 'Go on from here.' },
  paused: { why: 'The case is paused.', wayOn: 'Say resume.' },
  stopped: { why: 'Everything is halted.', wayOn: 'Say resume.' },
  closed: { why: 'The case is closed.', wayOn: 'Open a new case.' },
  'steps-open': { why: 'Steps are still open.', wayOn: 'Finish or skip them first.' },
  'no-such-unit': { why: 'That tooth is not in this case.', wayOn: 'Say a tooth of this case.' },
  'nothing-to-say': { why: 'There is nothing to repeat.', wayOn: 'Ask for the step.' },
} as const satisfies Record<RefusalId, RefusalWords>;

/** What stands behind a refusal, said in place of the general reason (trade reference, 1C to 1E, 4B, 9). */
export const CAUSE_WORDS = {
  'dust-in-mouth': 'Sandblasting is never done in the mouth.',
  'inside-outside-only': 'The inside is treated outside the mouth only.',
  'still-in-mouth': 'It is in the mouth still, and saliva is on it.',
  'etch-finds-no-glass': 'Porcelain etch finds no glass in this. Nothing would hold.',
  'etch-dissolves-infiltrate': 'Porcelain etch dissolves the glass that holds this together.',
  'etch-corrodes-metal': 'Porcelain etch corrodes metal, and etches nothing useful.',
  'etch-eats-filler': 'Porcelain etch eats the filler, and leaves it weak.',
  'phosphate-takes-sites': 'Phosphoric acid takes the places its primer needs.',
  'phosphate-on-metal': 'Phosphoric acid is not shown to clean metal, and blocks its primer.',
  'phosphate-on-filler': 'Phosphoric acid alone is not shown to clean filled resin.',
  'phosphate-on-network': 'Phosphoric acid is hardly shown to clean hybrid ceramic.',
  'self-etch': 'The bond etches by itself here.',
  'etch-for-nothing': 'This cement gains nothing from an etched tooth.',
  'abrasion-chips-glass': 'Sandblasting chips and weakens glass ceramic.',
  'cleaner-not-shown': 'The cleaner is not shown to clean this material.',
  'silane-finds-no-silica': 'Silane binds to silica, and there is none in this.',
  'phosphate-primer-on-glass': 'A phosphate primer does not bind glass.',
  'phosphate-primer-on-filler': 'A phosphate primer does not bind the filler.',
  'phosphate-primer-on-noble': 'Noble metal has no oxide for a phosphate primer.',
  'phosphate-primer-is-metal-primer': 'On this metal the plan calls it metal primer.',
  'metal-primer-on-oxide': 'Metal primer is for alloys. This ceramic needs a phosphate primer.',
  'metal-primer-on-glass': 'A metal primer does not bind glass.',
  'metal-primer-on-filler': 'A metal primer does not bind the filler.',
  'leaves-some-on': 'It does not take off all that is on it.',
  'nothing-to-rinse': 'There is nothing on it to rinse off.',
  'no-primer-on': 'There is no primer on it to dry.',
  'tooth-acid-on': 'Acid is still on the tooth.',
  'tooth-not-etched': 'The tooth is not etched for it.',
  'not-roughened': 'That surface is not roughened yet.',
  'own-primer-missing': 'Its own primer is not on yet.',
  'joint-rough': 'The joint goes under the gum, and is not polished.',
  'not-screwed-in': 'It is not screwed in yet.',
  'not-torqued': 'The screw is not torqued yet.',
  'no-bond-on': 'There is no bond on it to thin.',
  'not-held': 'It has not been held for its time.',
  'cement-soft': 'The cement is soft, and drags out of the margin.',
  'flash-on': 'The excess is still on, and would set hard.',
  'cement-not-set': 'The cement is not set.',
  'cement-takes-no-primer': 'This cement bonds to no primer.',
  'cement-primes': 'This cement brings its primer with it.',
  'no-bond-under-cement': 'No bond goes under this cement.',
  'no-bond-on-abutment': 'Bond is for a tooth, and this is an abutment.',
  'nothing-to-etch': 'There is nothing here to etch.',
  'no-light': 'There is no light on the shelf.',
  'not-lit': 'Light does not set this cement.',
  'light-blocked': 'No light passes this material.',
  'no-screw': 'This unit has no screw.',
  'no-base': 'This crown is not bonded to a titanium base.',
  harms: 'That is never overridden. It burns, or ruins the bond.',
  'only-short': 'A timer is never overridden. End it short, with a reason.',
  'cannot-be-done': 'That cannot be overridden. It cannot be done as things stand.',
} as const satisfies Record<CauseId, string>;
