/** Skipping, cutting short, overriding, counting as clean; and the reasons for it. */
import { type Reason, REASONS, type StepId, STEPS } from '../../machines/contract/index.ts';
import { STEP_WORDS } from '../catalogue/step-words.ts';
import { row, type Row } from './row.ts';

/** Ways to give each reason, as JSGF. */
export const REASON_SAYS = {
  'clinical-judgement': 'clinical judgement | my judgement',
  'not-needed': "not needed | it's not needed",
  'not-available': "not available | we don't have it",
  'patient-comfort': 'patient comfort | for patient comfort',
  'already-done': 'already done | done earlier',
  'instructions-for-use': 'instructions for use | the instructions say so',
  'equipment-failed': "equipment failed | it's broken",
} as const satisfies Record<Reason, string>;

/** Names that begin another step's name: cut off, "skip the bond thinning" would skip the bond. */
const LONGER: Partial<Record<StepId, string>> = {
  cleaner: 'cleaner step',
  bond: 'bond step',
  'abutment-in': 'abutment step',
};

/** A step's name as it is said in "skip the ...". */
const spokenName = (step: StepId): string =>
  LONGER[step] ?? STEP_WORDS[step].name.replace('-', ' ');

const withReason = (says: string, command: Row['commands'][0]): Row => ({
  ...row(says, command),
  takesReason: true,
});

/** "skip" is never said alone: it sounds like "strip". */
export const DEVIATIONS: readonly Row[] = [
  withReason('skip this step | skip this one | leave this step out', { type: 'skip' }),
  ...STEPS.map((step) => withReason(`skip the ${spokenName(step)}`, { type: 'skip', step })),
  withReason('cut it short | end it short', { type: 'short' }),
  withReason('count it as clean | it counts as clean', { type: 'counts-clean' }),
];

/** These are for the case, not for one tooth. */
export const OVERRIDES: readonly Row[] = [
  withReason('override | override that', { type: 'override' }),
];

/** Answers to "why". */
export const REASON_ROWS: readonly Row[] = REASONS.map((reason) =>
  row(REASON_SAYS[reason], { type: 'reason', reason }),
);
