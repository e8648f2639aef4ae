/**
 * Reads a record the way an auditor would: what was carried out, in order, with what was taken back
 * taken out. Nothing here knows the machine: it works from commands, outcomes and times.
 */
import type {
  Command,
  Contaminant,
  Deviation,
  Outcome,
  RefusalId,
  Stamp,
  StepId,
  Surface,
} from '../../machines/contract/index.ts';

/** A line of the record, with the step that bare words meant when they were said. */
export interface Told {
  readonly at: number;
  readonly tooth: string | null;
  readonly command: Command;
  readonly outcome: Outcome;
  readonly means: StepId | null;
  /** How it was heard, where it was spoken. */
  readonly heard?: Stamp['heard'];
}

/** Something that was carried out. */
export interface Act {
  readonly n: number;
  readonly at: number;
  readonly tooth: string;
  readonly what:
    | 'begin'
    | 'finish'
    | 'short'
    | 'skip'
    | 'soil'
    | 'counts-clean'
    | 'start-over'
    | 'hold'
    | 'release'
    | 'other';
  readonly step: StepId | null;
  readonly surface: Surface | null;
  readonly contaminant: Contaminant | null;
  /** Said back and answered with yes. */
  readonly readBack: boolean;
  /** Every refusal overridden for it. */
  readonly overrode: readonly RefusalId[];
  readonly deviation: Deviation | null;
}

/** An act and what stood on its unit when it came, taken-back acts left out. */
export interface Deed {
  readonly act: Act;
  readonly before: readonly Act[];
}

interface Meaning {
  readonly command: Command;
  readonly means: StepId | null;
  readonly tooth: string | null;
  readonly overrode: readonly RefusalId[];
  readonly readBack: boolean;
}

/** Refusals of the case's own control: no act stood to be carried out. */
const CONTROL: readonly RefusalId[] = [
  'paused',
  'stopped',
  'closed',
  'no-such-unit',
  'no-override',
  'nothing-to-say',
];
/** Commands beside a question: it goes on waiting. */
const BESIDE: readonly Command['type'][] = ['ask', 'note', 'lot', 'pause'];
const MOMENTS: readonly StepId[] = ['mix', 'load'];

const NO_STEP = { step: null, surface: null, contaminant: null } as const;

function whatOf({ command, means }: Meaning, deviation: Deviation | null) {
  switch (command.type) {
    case 'begin':
      return { ...NO_STEP, what: 'begin', step: means } as const;
    case 'finish':
    case 'next':
      if (means === null) return { ...NO_STEP, what: 'other' } as const;
      return {
        ...NO_STEP,
        what: MOMENTS.includes(means) ? 'begin' : 'finish',
        step: means,
      } as const;
    case 'short':
      return {
        ...NO_STEP,
        what: deviation?.kind === 'short' ? 'short' : 'finish',
        step: means,
      } as const;
    case 'skip':
      return { ...NO_STEP, what: 'skip', step: means } as const;
    case 'soil': {
      const { surface, contaminant } = command;
      return { what: 'soil', step: null, surface, contaminant } as const;
    }
    case 'find':
      return command.finding === 'still-bleeding'
        ? ({ what: 'soil', step: null, surface: 'prep', contaminant: 'blood' } as const)
        : ({ ...NO_STEP, what: 'other' } as const);
    case 'counts-clean':
    case 'start-over':
    case 'hold':
    case 'release':
      return { ...NO_STEP, what: command.type } as const;
    default:
      return { ...NO_STEP, what: 'other' } as const;
  }
}

/** Accepted commands that an undo can take back; those not here changed nothing that it restores. */
const KEPT: readonly Command['type'][] = [
  ...(['begin', 'finish', 'short', 'skip', 'soil', 'find', 'counts-clean', 'start-over'] as const),
  ...(['unit', 'next', 'back', 'hold', 'release', 'add'] as const),
];

/** Everything that was carried out, each with what stood before it. */
export function deedsOf(told: readonly Told[]): readonly Deed[] {
  const deeds: Deed[] = [];
  let standing: readonly Act[] = [];
  let waiting: Meaning | null = null;
  let refused: Meaning | null = null;
  let refusedFor: RefusalId | null = null;
  for (const [n, one] of told.entries()) {
    const { command, outcome, at } = one;
    let meaning: Meaning = { ...one, overrode: [], readBack: false };
    if (command.type === 'reason' && waiting !== null) meaning = waiting;
    if (command.type === 'confirm' && waiting !== null) {
      meaning = { ...waiting, readBack: true };
      if (waiting.command.type === 'override' && refused !== null && refusedFor !== null) {
        meaning = { ...refused, readBack: true, overrode: [...refused.overrode, refusedFor] };
      }
    }
    if (outcome.kind === 'asked') {
      waiting = { ...meaning, tooth: one.tooth };
      continue;
    }
    if (outcome.kind === 'refused') {
      const { id } = outcome.refusal;
      if (CONTROL.includes(id)) continue;
      waiting = null;
      refused = { ...meaning, tooth: one.tooth, readBack: false };
      refusedFor = id;
      continue;
    }
    if (!BESIDE.includes(command.type)) waiting = null;
    if (meaning.command.type === 'undo') {
      // The last that was done on the unit it names: what was done since on others stands.
      const back = standing.findLastIndex((act) => act.tooth === (one.tooth ?? ''));
      standing = standing.filter((_, i) => i !== back);
      continue;
    }
    if (!KEPT.includes(meaning.command.type)) continue;
    const tooth = one.tooth ?? '';
    const { deviation } = outcome;
    const { overrode, readBack } = meaning;
    const act: Act = { n, at, tooth, overrode, readBack, deviation, ...whatOf(meaning, deviation) };
    deeds.push({ act, before: standing.filter((other) => other.tooth === tooth) });
    standing = [...standing, act];
  }
  return deeds;
}
