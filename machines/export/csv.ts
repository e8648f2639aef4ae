import type { Entry, Header } from '../contract/index.ts';
import { traceOf } from '../review/index.ts';
import type { Activity } from '../review/index.ts';
import { instantAfter } from './instant.ts';

const COLUMNS = [
  'reference',
  'invented',
  'entry',
  'entry_begun',
  'started',
  'completed',
  'case_s',
  'tooth',
  'step',
  'title',
  'surface',
  'contaminant',
  'role',
  'via',
  'actual_s',
  'planned_min_s',
  'planned_s',
  'planned_max_s',
] as const;

/**
 * A field as RFC 4180 has it. What a spreadsheet would take for a formula is led by an apostrophe:
 * the words of a record are anybody's.
 */
function field(value: string | number | boolean | null | undefined): string {
  if (value === null || value === undefined) return '';
  if (typeof value !== 'string') return `${value}`;
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A record's activities as CSV (RFC 4180, UTF-8, a header line): one line for each that took effect. */
export function toCsv(header: Header, entries: readonly Entry[]): string {
  const { reference } = header.case;
  const titleOf = ({ tooth, step }: Activity): string | null => {
    const units = header.plan.units.filter((unit) => tooth === null || unit.tooth === tooth);
    const steps = units.flatMap((unit) => [...unit.steps, ...unit.spare]);
    return steps.find(({ id }) => id === step)?.title ?? null;
  };
  const rows = traceOf(header, entries).activities.map((one) => {
    const { window, soiled } = one;
    const row: Readonly<
      Record<(typeof COLUMNS)[number], string | number | boolean | null | undefined>
    > = {
      reference,
      invented: header.invented,
      entry: one.entry,
      entry_begun: one.begun,
      started: instantAfter(header.opened, one.from),
      completed: instantAfter(header.opened, one.at),
      case_s: one.at / 1000,
      tooth: one.tooth,
      step: one.step,
      title: titleOf(one),
      surface: soiled?.surface,
      contaminant: soiled?.contaminant,
      role: one.who,
      via: one.via,
      actual_s: one.servedS,
      planned_min_s: window?.minS,
      planned_s: window?.targetS,
      planned_max_s: window?.maxS,
    };
    return COLUMNS.map((name) => field(row[name])).join(',');
  });
  return [COLUMNS.join(','), ...rows].map((line) => `${line}\r\n`).join('');
}
