import type { GradedDeviation } from '../../machines/review/index.ts';
import type { Failed, Reviewed } from './review-batch.ts';
import { wrapped } from './text.ts';

const plural = (count: number, one: string, many = `${one}s`): string =>
  count === 1 ? `one ${one}` : `${count} ${many}`;

/** A time as a person reads it; a record's are in UTC. */
const utc = (iso: string): string => `${iso.slice(0, 10)} ${iso.slice(11, 16)} UTC`;

/** Two digits are enough to rank by; 1 is only ever a perfect fit. */
const fitWords = (fitness: number): string =>
  fitness === 1 ? '1' : Math.min(0.999, Math.round(fitness * 1000) / 1000).toFixed(3);

const entriesWords = (entries: readonly number[]): string =>
  entries.length === 0
    ? 'no entry'
    : `${entries.length === 1 ? 'entry' : 'entries'} ${entries.join(', ')}`;

/** What it is about: the unit where there is one, and the step. */
function aboutWords({ tooth, step }: Pick<GradedDeviation, 'tooth' | 'step'>): string {
  return [tooth, step?.replaceAll('-', ' ') ?? null].filter((one) => one !== null).join(' ');
}

function deviationText(one: GradedDeviation): string {
  const { grade, asked, found, source, entries } = one;
  const about = aboutWords(one);
  const head = `${grade.toUpperCase()}${about === '' ? '' : ` ${about}`}`;
  return [
    wrapped(`${head}: ${found} (${entriesWords(entries)})`, '  ', '    '),
    wrapped(`asked: ${asked} [${source}]`, '    ', '      '),
  ].join('\n');
}

function guardText({ guard, record }: Reviewed): string[] {
  if (guard === null) return [];
  const { guarded } = guard;
  if (guarded.length === 0) return ['  The guard of today would have refused nothing.'];
  const firsts = guarded.filter(
    (one, i) =>
      one.then !== 'let through' ||
      !guarded.slice(0, i).some((each) => each.then === one.then && each.tooth === one.tooth),
  );
  const lines = firsts.map(({ entry, tooth, step, refusal, then }) => {
    const what = step === null ? '' : ` ${step.replaceAll('-', ' ')}`;
    const unit = record.units.length > 1 && tooth !== null ? ` ${tooth}` : '';
    const came =
      then === 'let through' ? 'let through then' : then === 'forced' ? 'forced' : 'stood';
    return `    entry ${entry}${unit}${what}: ${refusal.replaceAll('-', ' ')} (${came})`;
  });
  return ['  Would the guard have caught it? Refused:', ...lines];
}

const sealWords = ({ sealed, record }: Reviewed): string =>
  record.cutAfter !== undefined
    ? `CUT OFF after entry ${record.cutAfter}, unsealed: its last entry could have been changed`
    : !sealed
      ? 'not sealed: a cut at a line end would not show'
      : record.closed
        ? 'closed, chain and signature hold'
        : 'still open, chain and signature hold';

/** One record for a person: how it fits, every departure with what was asked and its source. */
export function recordText(reviewed: Reviewed): string {
  const { record } = reviewed;
  const { alignment, deviations, units, cutAfter } = record;
  const { cost, fitness, moves } = alignment;
  const steps = moves.filter(({ kind }) => kind === 'synchronous').length;
  const invented = record.invented ? ', invented' : '';
  const teeth = units.map(
    ({ tooth, material, cement, seated }) =>
      `  tooth ${tooth}, ${material.replaceAll('-', ' ')}, ${cement.label}, ${seated === null ? `not seated${cutAfter === undefined ? '' : ' by then'}` : `seated ${utc(seated)}`}`,
  );
  const fit =
    cost === 0
      ? `  All ${steps} steps as the plan has them.`
      : `  ${cost === 1 ? 'One step is' : `${cost} steps are`} missing, extra or out of place; ${steps} are as the plan has them (fitness ${fitWords(fitness)}).`;
  return [
    record.record,
    `  case ${record.reference}${invented}, opened ${utc(record.opened)}, ${plural(record.entries, 'entry', 'entries')}; ${sealWords(reviewed)}`,
    ...teeth,
    ...(cutAfter === undefined
      ? []
      : ['  INCOMPLETE: only what it still has is judged; what came after is not known.']),
    fit,
    ...(deviations.length === 0 ? ['  No departure.'] : deviations.map(deviationText)),
    ...guardText(reviewed),
    '',
  ].join('\n');
}

/** One line a record, where there are many. */
export function recordLine({ record }: Reviewed): string {
  const { deviations, alignment } = record;
  const counts = new Map<string, number>();
  for (const { grade } of deviations) counts.set(grade, (counts.get(grade) ?? 0) + 1);
  const told = [...counts].map(([grade, count]) => `${grade} ${count}`).join(', ');
  const cut = record.cutAfter === undefined ? '' : `CUT OFF after entry ${record.cutAfter}; `;
  return `${record.record}: ${cut}fitness ${fitWords(alignment.fitness)}; ${told === '' ? 'no departure' : told}`;
}

/** What was wrong with a file: where, and what. */
export function failedText({ record, line, message, leading }: Failed): string {
  const kept =
    leading === undefined
      ? ''
      : ` Its first ${plural(leading.record.entries, 'entry', 'entries')} ${leading.record.entries === 1 ? 'is' : 'are'} whole, and reviewed apart as an incomplete record.`;
  return `${record}${line === null ? '' : `:${line}`}: ${message}${kept}`;
}
