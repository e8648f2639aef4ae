/** What was heard, said back to be confirmed: "Silane on. Is that right?" */
import {
  type Command,
  CONTAMINANTS,
  FINDINGS,
  type StepId,
  STEPS,
  SURFACES,
} from '../../machines/contract/index.ts';
import { DURATION_PIECES, durationPieces, TOOTH_PIECES, toothPieces } from './numbers.ts';
import { STEP_WORDS } from './step-words.ts';
import { FINDING_WORDS, landedOn } from './term-words.ts';
import { sentence } from './wording.ts';

/** Never "yes": a quick answer would be taken for Seatcall's own voice. */
const RIGHT = 'Is that right?';
/** Said after the name of what a bare "done" would end. */
const DONE = 'Is it done?';

const PLAIN = {
  skip: 'Leave this out.',
  short: 'End it short.',
  override: 'Override.',
  'counts-clean': 'Count it as clean.',
  'start-over': 'Start this unit over.',
  next: 'The next step.',
  back: 'One step back.',
  undo: 'Take it back.',
  resume: 'Go on with the case.',
  release: 'Timer on again.',
  note: 'A note.',
  lot: 'A lot number.',
  close: 'Close the case now.',
  // These are never asked back; the words stand here so that every command has some.
  confirm: 'Agreed.',
  deny: 'Leave it.',
  reason: 'A reason.',
  pause: 'A break.',
  stop: 'Halt it all.',
  hold: 'The timer rests.',
  ask: 'A question.',
} as const satisfies Partial<Record<Command['type'], string>>;

const ADD = 'More time.';

const nameOf = (step: StepId): string => sentence(STEP_WORDS[step].name);

function said(command: Command, step: StepId | null): readonly string[] {
  switch (command.type) {
    case 'begin':
      return [STEP_WORDS[command.step].on, RIGHT];
    case 'finish':
      return step === null ? [DONE] : [nameOf(step), DONE];
    case 'next':
      return step === null ? [PLAIN.next, RIGHT] : [nameOf(step), DONE];
    case 'soil':
      return [landedOn(command), RIGHT];
    case 'find':
      return [FINDING_WORDS[command.finding][0], RIGHT];
    case 'unit':
      return [...toothPieces(command.tooth), RIGHT];
    case 'add':
      return [ADD, ...durationPieces(command.seconds), RIGHT];
    default:
      return [PLAIN[command.type], RIGHT];
  }
}

/** The pieces of the question; `step` is what a bare "done" or "next" was taken to mean. */
export const heardPieces = ({
  command,
  step,
}: {
  readonly command: Command;
  readonly step: StepId | null;
}): readonly string[] => said(command, step);

/** Every piece {@link heardPieces} can give. */
export const HEARD_PIECES: readonly string[] = [
  RIGHT,
  DONE,
  ADD,
  ...Object.values(PLAIN),
  ...STEPS.flatMap((step) => [STEP_WORDS[step].on, nameOf(step)]),
  ...SURFACES.flatMap((surface) =>
    CONTAMINANTS.map((contaminant) => landedOn({ surface, contaminant })),
  ),
  ...FINDINGS.map((finding) => FINDING_WORDS[finding][0]),
  ...TOOTH_PIECES,
  ...DURATION_PIECES,
];
