/** A command in plain words, as the record page shows it. */
import type { Command, StepId } from '../../machines/contract/index.ts';
import { CONTAMINANT_WORDS, FINDING_WORDS, REASON_WORDS, SURFACE_WORDS } from './words.ts';

/** What a step is called: its title in the plan of the record. */
export type TitleOf = (step: StepId) => string;

const ASKED = {
  step: 'Asked: which step',
  time: 'Asked: how long left',
  why: 'Asked: why',
  repeat: 'Asked: say again',
} as const;

const PLAIN = {
  'start-over': 'Start over',
  next: 'Next',
  back: 'Back',
  undo: 'Undo',
  confirm: 'Yes',
  deny: 'No',
  pause: 'Pause',
  resume: 'Resume',
  stop: 'Stop',
  hold: 'Hold the dwell',
  release: 'Go on with the dwell',
  close: 'Close the case',
} as const satisfies Readonly<Partial<Record<Command['type'], string>>>;

/** The command alone, without the tooth it addresses. */
export function commandWords(command: Command, title: TitleOf): string {
  const about = (verb: string, step: StepId | undefined): string =>
    step === undefined ? verb : `${verb}: ${title(step)}`;
  const because = (words: string, reason: keyof typeof REASON_WORDS | undefined): string =>
    reason === undefined ? words : `${words} (${REASON_WORDS[reason].toLowerCase()})`;
  switch (command.type) {
    case 'begin':
      return about('Start', command.step);
    case 'finish':
      return about('Done', command.step);
    case 'short':
      return because(about('End short', command.step), command.reason);
    case 'skip':
      return because(about('Skip', command.step), command.reason);
    case 'override':
      return because('Override', command.reason);
    case 'reason':
      return `Reason: ${REASON_WORDS[command.reason].toLowerCase()}`;
    case 'soil':
      return `${SURFACE_WORDS[command.surface]}: ${CONTAMINANT_WORDS[command.contaminant]}`;
    case 'counts-clean':
      return because('Counts as clean', command.reason);
    case 'find':
      return `Found: ${FINDING_WORDS[command.finding].toLowerCase()}`;
    case 'unit':
      return `Unit ${command.tooth}`;
    case 'add':
      return `Add ${command.seconds} s`;
    case 'ask':
      return ASKED[command.about];
    case 'note':
      return `Note: ${command.text}`;
    case 'lot':
      return `Lot of ${command.item}: ${command.lot}`;
    default:
      return PLAIN[command.type];
  }
}
