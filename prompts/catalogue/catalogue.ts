/** Every call Seatcall can make, by id. A call of the contract without words does not compile. */
import {
  type Call,
  type CallId,
  CAUSES,
  CAUTIONS,
  CONTAMINANTS,
  FINDINGS,
  HEARD_BADLY,
  NEVER_OVERRIDDEN,
  REASONS,
  type RefusalId,
  REFUSALS,
  type StepId,
  STEPS,
  SURFACES,
  UNSUITED,
} from '../../machines/contract/index.ts';
import { HEARD_PIECES, heardPieces } from './heard-words.ts';
import { DURATION_PIECES, durationPieces, TOOTH_PIECES, toothPieces } from './numbers.ts';
import type { Priority } from './priority.ts';
import { CAUSE_WORDS, REFUSAL_WORDS } from './refusal-words.ts';
import { STEP_WORDS, type StepWords } from './step-words.ts';
import {
  CAUTION_WORDS,
  CONTAMINANT_FIRST,
  FINDING_WORDS,
  landedOn,
  REASON_WORDS,
  SURFACE_WORDS,
} from './term-words.ts';
import { WHY_WORDS } from './why-words.ts';
import { type CallOf, type Catalogue, sentence, type Wording } from './wording.ts';

type Of<Id extends CallId> = CallOf[Id];

const words = (step: StepId): StepWords => STEP_WORDS[step];
const name = (step: StepId): string => sentence(words(step).name);
const first = (step: StepId): string => `First, ${words(step).name}.`;
const instead = (step: StepId): string => `Instead, ${words(step).name}.`;
/** What is wrong with hearing, and what to do about it; labels of devices stand on the screen. */
const HEARD_BADLY_WORDS = {
  'other device': ['Another microphone is listening.', 'Look at the screen.'],
  faint: ['Speech is too soft.', 'Move the microphone closer.'],
  clipped: ['The microphone is too loud.', 'Turn it down.'],
} as const satisfies Record<Of<'hears-badly'>['why'], readonly string[]>;
const NAMES = STEPS.map(name);
// Never "yes or no": a quick answer would be taken for Seatcall's own voice.
const AGREED = 'Agreed?';
const DEVIATION = 'It stays in the record.';
const UNDONE = 'That is undone.';
const STILL_TO_GO = 'Still to go.';
const OVER_TIME = 'Over time.';
const NO_OVERRIDE = 'No override.';
const neverOverridden: readonly RefusalId[] = NEVER_OVERRIDDEN;

/** A call that is always said in the same words. */
const always = (priority: Priority, deadlineMs: number, ...pieces: string[]): Wording<Call> => ({
  priority,
  deadlineMs,
  latestOnly: false,
  pieces: () => pieces,
  every: pieces,
});

/** A question that waits for an answer; a newer one takes its place. */
const asks = <C extends Call>(
  pieces: (call: C) => readonly string[],
  every: readonly string[],
): Wording<C> => ({ priority: 'step', deadlineMs: 15_000, latestOnly: true, pieces, every });

const says = <C extends Call>(
  priority: Priority,
  deadlineMs: number,
  pieces: (call: C) => readonly string[],
  every: readonly string[],
  latestOnly = false,
): Wording<C> => ({ priority, deadlineMs, latestOnly, pieces, every });

const timed = (piece: string, seconds: number | null): readonly string[] =>
  seconds === null ? [piece] : [piece, ...durationPieces(seconds)];

type Why = Pick<Of<'refusal'>['refusal'], 'id' | 'step' | 'because'>;

/** The reason in one sentence: what stands behind the refusal, where the machine or an old record names it. */
function whyOf({ id, step, because }: Why): string {
  if (because !== undefined) return CAUSE_WORDS[because];
  return id === 'in-mouth' && step === 'abrade'
    ? CAUSE_WORDS['dust-in-mouth']
    : REFUSAL_WORDS[id].why;
}

/** Refusals of an agent that never suits: another takes its place, and doing that first would not help. */
const REPLACED: readonly RefusalId[] = [...UNSUITED, 'acid-on-dentin', 'no-override'];
/** What may take the place of another. */
const REPLACING = STEPS.slice(STEPS.indexOf('intaglio-rinse'), STEPS.indexOf('mix'));

/** The step that would be accepted: before the refused one, or in its place. */
function wayWords({ id, step, wayOn }: Of<'refusal'>['refusal']): string {
  if (wayOn === null) return REFUSAL_WORDS[id].wayOn;
  const replaced = REPLACED.includes(id) || (id === 'acid-before-primer' && step === 'acid-clean');
  return replaced && REPLACING.includes(wayOn) ? instead(wayOn) : first(wayOn);
}

function refusalPieces({ refusal, named }: Of<'refusal'>): readonly string[] {
  const served =
    refusal.id === 'dwell-too-short' && refusal.seconds !== null
      ? [STILL_TO_GO, ...durationPieces(refusal.seconds)]
      : [];
  // Time still to serve says what to do; the way on would only delay the next call.
  const on = served.length > 0 ? [] : [wayWords(refusal)];
  const never = neverOverridden.includes(refusal.id) ? [NO_OVERRIDE] : [];
  const which = named === true && refusal.step !== null ? [name(refusal.step)] : [];
  return ['Refused.', whyOf(refusal), ...which, ...served, ...on, ...never];
}

const soiled = ({ surface, contaminant }: Omit<Of<'soiled'>, 'id'>): readonly string[] => {
  const [, again] = SURFACE_WORDS[surface];
  const before = CONTAMINANT_FIRST[contaminant]?.[surface];
  const hint = before === undefined ? [] : [before];
  return [landedOn({ surface, contaminant }), ...hint, again];
};

const over = (step: StepId): readonly string[] => {
  const hint = words(step).over;
  return [OVER_TIME, name(step), ...(hint === undefined ? [] : [hint])];
};

const REFUSAL_WHYS = [
  ...CAUSES.map((cause) => CAUSE_WORDS[cause]),
  ...REFUSALS.map((id) => REFUSAL_WORDS[id].why),
];
const REASON_PIECES = REASONS.map((reason) => REASON_WORDS[reason]);
const ASK_FOR = {
  skip: 'Why is it skipped?',
  short: 'Why is it short?',
  override: 'Why the override?',
  'counts-clean': 'Why does it count as clean?',
} as const satisfies Record<Of<'ask-reason'>['for'], string>;

const HOLD_STILL = {
  gel: 'Keep it still until it gels.',
  set: 'Keep it still until it is hard.',
} as const satisfies Record<Of<'hold-until'>['until'], string>;
const HOLD_OVER = {
  gel: 'The cement is gelled.',
  set: 'The cement is hard.',
} as const satisfies Record<Of<'hold-over'>['until'], string>;
const SHARES_MIX = 'If it shares this mix, say its mix too, then mix.';
const OWN_MIX = 'It is not ready, and gets a mix of its own.';
const USE_WITHIN = 'Use it within.';
const LAPSED = 'Do it again.';

/** The words, priority and deadline of every call. */
export const CATALOGUE = {
  opening: always(
    'step',
    60_000,
    'Case open.',
    'This supports a licensed clinician.',
    'It does not replace judgement, the instructions for use, or local rules.',
    'It is not a medical device.',
  ),
  reopened: always('step', 20_000, 'Case open again. The timers ran on.'),
  caution: says(
    'step',
    15_000,
    ({ caution }) => [CAUTION_WORDS[caution]],
    CAUTIONS.map((caution) => CAUTION_WORDS[caution]),
  ),
  unit: says('step', 10_000, ({ tooth }) => toothPieces(tooth), TOOTH_PIECES, true),
  step: says(
    'step',
    15_000,
    ({ step, seconds }) => timed(words(step).todo, seconds),
    [...STEPS.map((step) => words(step).todo), ...DURATION_PIECES],
    true,
  ),
  begun: says('timer', 4_000, ({ step, seconds }) => timed(words(step).on, seconds), [
    ...STEPS.map((step) => words(step).on),
    ...DURATION_PIECES,
  ]),
  left: says('timer', 1_500, ({ step, seconds }) => [name(step), ...durationPieces(seconds)], [
    ...NAMES,
    ...DURATION_PIECES,
  ]),
  time: says('timer', 10_000, ({ step }) => ['Time.', name(step)], ['Time.', ...NAMES]),
  overdue: says('alarm', 20_000, ({ step }) => over(step), STEPS.flatMap(over)),
  'seat-by': says(
    'timer',
    3_000,
    ({ seconds }) => ['Working time left.', ...durationPieces(seconds)],
    ['Working time left.', ...DURATION_PIECES],
  ),
  'same-mix': says('step', 6_000, ({ ready }) => [ready ? SHARES_MIX : OWN_MIX], [
    SHARES_MIX,
    OWN_MIX,
  ]),
  'working-time-over': always('alarm', 30_000, 'Working time over. Do not seat.'),
  'hold-until': says(
    'timer',
    4_000,
    (call) => [HOLD_STILL[call.until], ...durationPieces(call.seconds)],
    [...Object.values(HOLD_STILL), ...DURATION_PIECES],
  ),
  'hold-over': says('timer', 10_000, (call) => [HOLD_OVER[call.until]], Object.values(HOLD_OVER)),
  'good-for': says(
    'timer',
    4_000,
    ({ step, seconds }) => [name(step), USE_WITHIN, ...durationPieces(seconds)],
    [USE_WITHIN, ...NAMES, ...DURATION_PIECES],
  ),
  lapsed: says('alarm', 30_000, ({ step }) => ['Too old now.', name(step), LAPSED], [
    'Too old now.',
    ...NAMES,
    LAPSED,
  ]),
  'ask-begin': asks(({ step }) => [name(step), 'Start now?'], [...NAMES, 'Start now?']),
  'ask-reason': asks((call) => [ASK_FOR[call.for]], Object.values(ASK_FOR)),
  'ask-skip': asks(
    ({ step, reason }) => ['Leave this out.', name(step), REASON_WORDS[reason], AGREED],
    ['Leave this out.', ...NAMES, ...REASON_PIECES, AGREED],
  ),
  'ask-short': asks(
    ({ step, reason }) => ['End it short.', name(step), REASON_WORDS[reason], AGREED],
    ['End it short.', ...NAMES, ...REASON_PIECES, AGREED],
  ),
  'ask-override': asks(
    ({ refusal, step, reason, because }) => [
      'Override.',
      whyOf({ id: refusal, step, because }),
      REASON_WORDS[reason],
      AGREED,
    ],
    ['Override.', ...REFUSAL_WHYS, ...REASON_PIECES, AGREED],
  ),
  'ask-counts-clean': asks(
    ({ reason }) => ['Count it as clean.', REASON_WORDS[reason], AGREED],
    ['Count it as clean.', ...REASON_PIECES, AGREED],
  ),
  'ask-undo': asks(
    ({ contamination }) =>
      contamination ? ['Take back a contamination.', AGREED] : ['Take it back.', AGREED],
    ['Take back a contamination.', 'Take it back.', AGREED],
  ),
  'ask-start-over': asks(
    () => ['Start this unit over.', 'Cement out, everything again.', AGREED],
    ['Start this unit over.', 'Cement out, everything again.', AGREED],
  ),
  'ask-heard': asks<Of<'ask-heard'>>(heardPieces, HEARD_PIECES),
  refusal: says('refusal', 8_000, refusalPieces, [
    'Refused.',
    STILL_TO_GO,
    NO_OVERRIDE,
    ...REFUSAL_WHYS,
    ...REFUSALS.map((id) => REFUSAL_WORDS[id].wayOn),
    ...STEPS.map(first),
    ...REPLACING.map(instead),
    ...DURATION_PIECES,
  ]),
  soiled: says<Of<'soiled'>>(
    'step',
    10_000,
    soiled,
    SURFACES.flatMap((surface) =>
      CONTAMINANTS.flatMap((contaminant) => soiled({ surface, contaminant })),
    ),
  ),
  found: says(
    'step',
    10_000,
    ({ finding }) => FINDING_WORDS[finding],
    FINDINGS.flatMap((finding) => FINDING_WORDS[finding]),
  ),
  skipped: says('step', 10_000, ({ step }) => [name(step), 'Left out.', DEVIATION], [
    ...NAMES,
    'Left out.',
    DEVIATION,
  ]),
  ended: says('step', 5_000, ({ step }) => [name(step), 'That one is done.'], [
    ...NAMES,
    'That one is done.',
  ]),
  cancelled: always('step', 5_000, 'Cancelled.'),
  undone: says('step', 10_000, ({ step }) => (step === null ? [UNDONE] : [UNDONE, name(step)]), [
    UNDONE,
    ...NAMES,
  ]),
  noted: always('chatter', 3_000, 'Noted.'),
  held: always('timer', 4_000, 'Timer held.'),
  released: says('timer', 4_000, ({ seconds }) => ['Timer on.', ...durationPieces(seconds)], [
    'Timer on.',
    ...DURATION_PIECES,
  ]),
  added: says('timer', 4_000, ({ seconds }) => ['Added.', ...durationPieces(seconds)], [
    'Added.',
    ...DURATION_PIECES,
  ]),
  paused: always('step', 8_000, 'Case paused.'),
  resumed: always('step', 8_000, 'Going on.'),
  stopped: always('stop', 10_000, 'All halted.'),
  why: says(
    'step',
    8_000,
    ({ step }) => [WHY_WORDS[step]],
    STEPS.map((step) => WHY_WORDS[step]),
    true,
  ),
  listening: always('chatter', 1_500, 'Listening.'),
  'cannot-hear': always('alarm', 10_000, 'The microphone is not working.', 'Look at the screen.'),
  'hears-badly': says(
    'step',
    // It lasts, and waits for the words that open a case.
    30_000,
    ({ why }) => HEARD_BADLY_WORDS[why],
    HEARD_BADLY.flatMap((why) => HEARD_BADLY_WORDS[why]),
  ),
  finished: always('step', 20_000, 'This unit is finished.'),
  closed: always('step', 20_000, 'Case closed. The record is sealed.'),
} as const satisfies Catalogue;
