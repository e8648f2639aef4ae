/** The commands that make sense now, in the order they are offered; the first is what the pedal does. */
import {
  type Call,
  type Command,
  type CommandType,
  type Finding,
  REASONS,
  type StepId,
} from '../../machines/contract/index.ts';
import { byUrgency } from './dwell-words.ts';
import type { ChairState } from './model.ts';
import { FINDING_WORDS, REASON_WORDS } from './words.ts';

/** One button. */
export interface Offer {
  readonly label: string;
  readonly command: Command;
  /** The key that does the same; empty for none. */
  readonly key: string;
  readonly tone: 'main' | 'plain' | 'warn';
}

const offer = (
  label: string,
  command: Command,
  key = '',
  tone: Offer['tone'] = 'plain',
): Offer => ({ label, command, key, tone });

/** What can be found at a step. */
const FINDINGS_AT: Readonly<Partial<Record<StepId, readonly Finding[]>>> = {
  'prep-clean': ['still-bleeding', 'bleeding-stopped'],
  'try-in': ['not-seating', 'rocking'],
  contacts: ['contacts-tight', 'contacts-open'],
  margins: ['margin-open', 'not-seating', 'rocking'],
  shade: ['shade-wrong'],
  'bite-before': ['bite-high'],
  isolate: ['still-bleeding', 'bleeding-stopped'],
  'dry-check': ['still-bleeding', 'bleeding-stopped'],
  seat: ['not-seating', 'moved'],
  'gel-wait': ['moved'],
  set: ['moved'],
  'bite-after': ['bite-high'],
};

/** Answers to the question that waits; empty when none does. */
export function answers(asked: Call | null): readonly Offer[] {
  if (asked === null) return [];
  const no = offer('No', { type: 'deny' }, 'N');
  if (asked.id !== 'ask-reason') return [offer('Yes', { type: 'confirm' }, 'Y', 'main'), no];
  return [
    ...REASONS.map((reason, at) =>
      offer(REASON_WORDS[reason], { type: 'reason', reason }, String(at + 1)),
    ),
    { ...no, label: 'Cancel' },
  ];
}

/** Steps that are over as soon as they start. */
const MOMENTS: readonly StepId[] = ['mix', 'load'];

/** The main action: what space, enter and the pedal do; null when there is none to do blindly. */
export function mainOffer({ view, live }: ChairState): Offer | null {
  const main = (label: string, command: Command): Offer => offer(label, command, 'Space', 'main');
  if (view.pace === 'closed') return null;
  if (view.asked !== null) {
    // A reason is a choice: a pedal must not make it.
    return view.asked.id === 'ask-reason' ? null : main('Yes', { type: 'confirm' });
  }
  if (view.pace !== 'going') return main('Resume', { type: 'resume' });
  const { step } = view;
  if (step === null) {
    if (view.units.every((unit) => unit.finished)) return main('Close case', { type: 'close' });
    const other = view.units.find((unit) => !unit.finished);
    return other === undefined
      ? null
      : main(`Go to ${other.tooth}`, { type: 'unit', tooth: other.tooth });
  }
  const running = view.dwells.some(
    (dwell) => dwell.step === step.id && dwell.tooth === view.unit.tooth,
  );
  const begins =
    step.targetS !== null ||
    MOMENTS.includes(step.id) ||
    (step.id === 'try-in' && view.surfaces.where === 'bench');
  if (!running && begins && live.begins.includes(step.id)) {
    return main('Start', { type: 'begin', step: step.id });
  }
  return main('Done', { type: 'finish', step: step.id });
}

/** Commands for what is going on right now, and undo. */
export function nearOffers({ view, live }: ChairState): readonly Offer[] {
  if (view.pace === 'closed' || view.asked !== null) return [];
  const may = (type: CommandType): boolean => live.commands.includes(type);
  const offers: Offer[] = [];
  const add = (when: boolean, ...made: readonly Offer[]): void => {
    if (when) offers.push(...made);
  };
  const [dwell] = byUrgency(view.dwells);
  if (dwell !== undefined) {
    add(may('release') && dwell.held, offer('Go on', { type: 'release' }, 'H'));
    add(may('hold') && !dwell.held, offer('Hold', { type: 'hold' }, 'H'));
    add(may('add'), offer('+10 s', { type: 'add', seconds: 10 }, '+'));
    add(may('short') && dwell.phase === 'short', offer('End short', { type: 'short' }, '', 'warn'));
  }
  for (const { step, tooth, title } of view.dwells) {
    const isMain = view.pace === 'going' && step === view.step?.id && tooth === view.unit.tooth;
    add(!isMain, offer(`Done: ${title}`, { type: 'finish', step, tooth }));
  }
  const refusal = view.refusal;
  add(
    may('override') && refusal !== null && refusal.overridable,
    offer('Override', { type: 'override' }, '', 'warn'),
  );
  if (view.step !== null && may('find')) {
    for (const finding of FINDINGS_AT[view.step.id] ?? []) {
      offers.push(offer(FINDING_WORDS[finding], { type: 'find', finding }));
    }
  }
  add(may('undo'), offer('Undo', { type: 'undo' }, 'U'));
  return offers;
}

/** Commands that make sense at any time, one touch further away. */
export function moreOffers({ view, live }: ChairState): readonly Offer[] {
  if (view.pace === 'closed' || view.asked !== null) return [];
  const offers: Offer[] = [];
  const add = (type: CommandType, made: Offer): void => {
    if (live.commands.includes(type)) offers.push(made);
  };
  if (view.step !== null) add('skip', offer('Skip', { type: 'skip' }));
  add('next', offer('Next', { type: 'next' }, '→'));
  add('back', offer('Back', { type: 'back' }, '←'));
  add('ask', offer('Say again', { type: 'ask', about: 'repeat' }, '↑'));
  add('ask', offer('How long left', { type: 'ask', about: 'time' }, '↓'));
  if (view.step !== null) add('ask', offer('Why this step', { type: 'ask', about: 'why' }, 'W'));
  if (view.pace === 'going') add('pause', offer('Pause', { type: 'pause' }, 'P'));
  add('start-over', offer('Start over', { type: 'start-over' }, '', 'warn'));
  return offers;
}

/** What may have touched a surface, most often first. */
export function soilOffers({ view, live }: ChairState): readonly Offer[] {
  if (!live.commands.includes('soil') || view.asked !== null || view.pace === 'closed') return [];
  const seated = view.surfaces.where === 'seated';
  const soil = (
    label: string,
    surface: 'intaglio' | 'prep' | 'field',
    contaminant: 'saliva' | 'blood' | 'glove' | 'drop',
  ): Offer => offer(label, { type: 'soil', surface, contaminant }, '', 'warn');
  return [
    ...(seated
      ? []
      : [
          soil('Saliva on intaglio', 'intaglio', 'saliva'),
          soil('Blood on intaglio', 'intaglio', 'blood'),
          soil('Glove on intaglio', 'intaglio', 'glove'),
          soil('Dropped it', 'intaglio', 'drop'),
          soil('Saliva on prep', 'prep', 'saliva'),
          soil('Blood on prep', 'prep', 'blood'),
        ]),
    soil('Saliva in field', 'field', 'saliva'),
    soil('Blood in field', 'field', 'blood'),
  ];
}
