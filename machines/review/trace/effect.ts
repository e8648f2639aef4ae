import type { Command, Entry, StepId } from '../../contract/index.ts';
import { MOMENTS } from '../../seating/index.ts';

/** What an accepted entry did, once yes, reasons and overrides are put with what they answer. */
export type Effect =
  | { readonly act: 'begin' | 'finish' | 'short' | 'skip'; readonly step: StepId }
  | {
      readonly act: 'soil';
      readonly command: Extract<Command, { readonly type: 'soil' }>;
    }
  | { readonly act: 'counts-clean' | 'start-over' | 'undo' | 'withdraw' | 'hold' | 'release' }
  /** Can be taken back and changes nothing here: a finding, another unit, the pointer, more time. */
  | { readonly act: 'aside' }
  /** Can't be taken back and changes nothing here. */
  | { readonly act: 'nothing' };

/** Refusals that leave the one before them to be overridden. */
const PASSING: readonly string[] = [
  'closed',
  'stopped',
  'paused',
  'no-such-unit',
  'nothing-to-say',
  'no-override',
];

/** Follows the talk: which question an answer was for, which refusal an override. */
export class Talk {
  #pending: Command | null = null;
  #refused: { readonly command: Command; readonly entries: readonly number[] } | null = null;

  /** The command an entry carried out or asked about. */
  #meant({ command }: Entry): Command {
    const answered =
      (command.type === 'confirm' || command.type === 'reason') && this.#pending !== null
        ? this.#pending
        : command;
    if (answered.type !== 'override') return answered;
    return this.#refused?.command ?? answered;
  }

  /** Entries that refused the command an override would carry out now, one after the other. */
  get refusedAt(): readonly number[] {
    return this.#refused?.entries ?? [];
  }

  /** Takes the next entry in; what it did, for an accepted one. */
  hear(entry: Entry): Effect {
    const { command, outcome, n } = entry;
    const meant = this.#meant(entry);
    if (outcome.kind === 'asked') {
      if (command.type !== 'confirm' && command.type !== 'reason') this.#pending = command;
      return { act: 'nothing' };
    }
    if (outcome.kind === 'refused') {
      if (!PASSING.includes(outcome.refusal.id)) {
        const before = this.#refused?.command === meant ? this.#refused.entries : [];
        this.#refused = { command: meant, entries: [...before, n] };
      }
      return { act: 'nothing' };
    }
    return effectOf(entry, meant);
  }
}

function stepAct(entry: Entry, act: 'begin' | 'finish' | 'short' | 'skip'): Effect {
  const { step, outcome } = entry;
  if (step === null) return { act: 'aside' };
  if (act === 'finish' && MOMENTS.includes(step)) return { act: 'begin', step };
  const kind = outcome.kind === 'accepted' ? outcome.deviation?.kind : undefined;
  // "Short" past the minimum is a plain end.
  return { act: act === 'short' && kind !== 'short' ? 'finish' : act, step };
}

function effectOf(entry: Entry, meant: Command): Effect {
  switch (meant.type) {
    case 'begin':
    case 'finish':
    case 'short':
    case 'skip':
      return stepAct(entry, meant.type);
    case 'next':
      return stepAct(entry, 'finish');
    case 'soil':
      return { act: 'soil', command: meant };
    case 'find': {
      if (meant.finding !== 'still-bleeding') return { act: 'aside' };
      return { act: 'soil', command: { type: 'soil', surface: 'prep', contaminant: 'blood' } };
    }
    case 'undo': {
      const { outcome } = entry;
      const withdrawn = outcome.kind === 'accepted' && outcome.deviation?.kind === 'withdrawn';
      return { act: withdrawn ? 'withdraw' : 'undo' };
    }
    case 'counts-clean':
    case 'start-over':
    case 'hold':
    case 'release':
      return { act: meant.type };
    case 'unit':
    case 'back':
    case 'add':
      return { act: 'aside' };
    default:
      return { act: 'nothing' };
  }
}
