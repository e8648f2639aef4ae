/** An entry of a record in plain words. */
import type { Deviation, Entry, Plan, Refusal } from '../../machines/contract/index.ts';
import { callPieces } from '../../prompts/catalogue/index.ts';
import { commandWords, type TitleOf } from './command-words.ts';
import { duration, minutes, timeOfDay } from './format.ts';
import { REASON_WORDS, ROLE_WORDS, stepWords, WAY_WORDS } from './words.ts';

/** One row of the record page. */
export interface EntryWords {
  readonly n: number;
  /** Time of day, and minutes and seconds since the case was opened. */
  readonly time: string;
  readonly since: string;
  readonly who: string;
  readonly via: string;
  /** Empty where nothing was recognised from sound. */
  readonly heard: string;
  readonly tooth: string;
  readonly command: string;
  readonly outcome: string;
  readonly kind: Entry['outcome']['kind'];
  /** Empty where the plan was kept to. */
  readonly deviation: string;
}

/** The titles that the record's own plan gives to steps. */
export function titlesOf(plan: Plan): TitleOf {
  const titles = new Map(
    plan.units.flatMap((unit) =>
      [...unit.steps, ...unit.spare].map(({ id, title }) => [id, title]),
    ),
  );
  return (step) => titles.get(step) ?? stepWords(step);
}

const refusalWords = (refusal: Refusal): string =>
  callPieces({ id: 'refusal', refusal }).slice(1).join(' ');

/** Why something was refused, without its way on. */
function whyOf(id: Refusal['id'], step: Refusal['step']): string {
  const refusal = { id, step, wayOn: null, seconds: null, overridable: true };
  return callPieces({ id: 'refusal', refusal })[1] ?? '';
}

const KINDS = {
  skipped: 'Skipped',
  short: 'Ended short',
  long: 'Went past its maximum',
  overridden: 'Overridden',
  withdrawn: 'Contamination withdrawn',
  'counted-clean': 'Counted as clean',
  'started-over': 'Started over',
} as const satisfies Readonly<Record<Deviation['kind'], string>>;

/** A departure from the plan, with what was served and why. */
export function deviationWords(deviation: Deviation, title: TitleOf): string {
  const { kind, step, reason, refusal, servedS, also = [] } = deviation;
  const what = step === null ? KINDS[kind] : `${KINDS[kind]}: ${title(step)}`;
  const served = servedS === null ? '' : `, after ${duration(servedS)}`;
  const why = reason === null ? '' : `. Reason: ${REASON_WORDS[reason].toLowerCase()}`;
  const against = refusal === null ? '' : `. Refused before: ${refusalWords(refusal)}`;
  const whys = also.map((id) => whyOf(id, step)).join(' ');
  const besides = whys === '' ? '' : ` Overridden with it: ${whys}`;
  return `${what}${served}${why}${against}${besides}`;
}

/** The command's words, with the step that bare words were taken to mean. */
function meantWords({ command, step }: Entry, title: TitleOf): string {
  const words = commandWords(command, title);
  const named = 'step' in command && command.step !== undefined;
  return step === null || named ? words : `${words} (${title(step)})`;
}

/** `offsetMinutes` is the reader's zone: minutes ahead of UTC. */
export function entryWords(entry: Entry, title: TitleOf, offsetMinutes: number): EntryWords {
  const { stamp, outcome } = entry;
  const { heard } = stamp;
  const deviation = outcome.kind === 'accepted' ? outcome.deviation : null;
  const came = {
    accepted: () => 'Taken',
    asked: () => 'Read back',
    refused: () => (outcome.kind === 'refused' ? `Refused: ${refusalWords(outcome.refusal)}` : ''),
  } as const;
  return {
    n: entry.n,
    time: timeOfDay(stamp.wall, offsetMinutes),
    since: minutes(stamp.at / 1000),
    who: ROLE_WORDS[stamp.who],
    via: WAY_WORDS[stamp.via],
    heard: heard === null ? '' : `“${heard.phrase}” ${Math.round(heard.score * 100)}\u00A0%`,
    tooth: entry.tooth ?? '',
    command: meantWords(entry, title),
    outcome: came[outcome.kind](),
    kind: outcome.kind,
    deviation: deviation === null ? '' : deviationWords(deviation, title),
  };
}
