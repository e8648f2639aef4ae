import { advance, type CaseState, live } from '../../machines/conduct/index.ts';
import { type Command, type CommandType, STEPS } from '../../machines/contract/index.ts';
import { NEVER } from './never.ts';

const REGIONS = ['where', 'intaglio', 'prep', 'field', 'cement'] as const;

/** Regions that the guards see otherwise than the chart stands, and standings that contradict each other. */
export function mirrorFaults(state: CaseState): string[] {
  return Object.entries(state.units).flatMap(([tooth, { value, context }]) => {
    const { now } = context;
    const told: Record<string, unknown> = { ...value };
    const differing = REGIONS.filter((region) => told[region] !== now[region]).map(
      (region) => `${tooth} ${region}: ${now[region]} against ${String(told[region])}`,
    );
    const down = ['seated', 'tacked', 'cleared', 'set'].includes(now.cement);
    const split =
      down !== (now.where === 'seated') ||
      (now.intaglio === 'seated') !== down ||
      (now.prep === 'seated') !== down ||
      (now.intaglio === 'loaded') !== (now.cement === 'loaded');
    return split ? [...differing, `${tooth} ${JSON.stringify(now)}`] : differing;
  });
}

/** Commands without a step: one of each type. */
const PLAIN: readonly Command[] = [
  { type: 'finish' },
  { type: 'short', reason: 'clinical-judgement' },
  { type: 'skip', reason: 'clinical-judgement' },
  { type: 'override', reason: 'clinical-judgement' },
  { type: 'reason', reason: 'clinical-judgement' },
  { type: 'soil', surface: 'prep', contaminant: 'saliva' },
  { type: 'counts-clean', reason: 'clinical-judgement' },
  { type: 'find', finding: 'bite-high' },
  { type: 'start-over' },
  { type: 'next' },
  { type: 'back' },
  { type: 'undo' },
  { type: 'confirm' },
  { type: 'deny' },
  { type: 'pause' },
  { type: 'stop' },
  { type: 'hold' },
  { type: 'release' },
  { type: 'add', seconds: 10 },
  { type: 'ask', about: 'step' },
  { type: 'note', text: 'a note' },
  { type: 'lot', item: 'cement', lot: 'L1' },
  { type: 'close' },
];

/** Command types, and begun steps refused for good, that would do something now and that nobody listens for. */
export function unheard(state: CaseState): string[] {
  const { commands, begins } = live(state);
  const outcome = (command: Command) => advance(state, command, { at: state.at }).outcome;
  const heard = (type: CommandType) => commands.includes(type);
  const types = PLAIN.filter(
    (command) => outcome(command).kind !== 'refused' && !heard(command.type),
  );
  const refused = STEPS.filter((step) => {
    const came = outcome({ type: 'begin', step });
    const grave = came.kind === 'refused' && NEVER.includes(came.refusal.id);
    const done = came.kind === 'asked';
    return (grave || done) && AGENTS.includes(step) && !begins.includes(step);
  });
  return [...types.map(({ type }) => type), ...refused];
}

const AGENTS: readonly string[] = [
  ...(['cleaner', 'acid-clean', 'abrade', 'porcelain-etch', 'silane', 'zirconia-primer'] as const),
  ...(['mix', 'load', 'seat', 'try-in'] as const),
];
