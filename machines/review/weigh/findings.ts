import { z } from 'zod';
import { TEETH } from '../../contract/index.ts';
import { CEMENT_SITES, DEBOND_EVENTS } from '../../trade/index.ts';
import type { DebondEventId } from '../../trade/index.ts';
import { dayOf } from '../days.ts';

export const SITES_SEEN = [
  ...CEMENT_SITES.filter((site) => site !== 'core-in-crown'),
  'not-seen',
] as const;
const isEvent = (id: unknown): id is DebondEventId =>
  typeof id === 'string' && Object.hasOwn(DEBOND_EVENTS, id);

const text = z.string().trim().min(1).max(64);
/** A day that exists: 2026-02-30 does not. */
const day = z.iso.date();

/** What was found when the restoration came off. What nobody looked at is left out. */
export const Findings = z.strictObject({
  format: z.literal('seatcall-findings/1'),
  invented: z.boolean().default(false),
  /** The case's reference, to find its record among many. */
  reference: text.optional(),
  tooth: z.enum(TEETH),
  /** Where at least three quarters of the cement stayed. */
  cement: z.enum(SITES_SEEN).default('not-seen'),
  /** Whether core, post or tooth came away inside the restoration. */
  coreInside: z.boolean().nullable().default(null),
  /** Day it was seated; without it, the record's. */
  seated: day.optional(),
  /** Day it came off. */
  lost: day.optional(),
  /** Days in place, where the dates are not known. */
  days: z.int().min(0).max(36_525).optional(),
  /** Whether the prep has resistance form; without it, as the plan worked out. */
  form: z.enum(['holds', 'lacks', 'not-known']).default('not-known'),
  /** Events of the seating known otherwise than from the record. */
  known: z.array(z.custom<DebondEventId>(isEvent)).max(20).default([]),
});
export type Findings = z.infer<typeof Findings>;

/** What is allowed in each field, in words. */
export const FINDINGS_FIELDS = {
  format: '"seatcall-findings/1"',
  invented: 'true or false (false when left out)',
  reference: "the case's reference, 1 to 64 characters",
  tooth: 'two digits of ISO 3950 as text, quadrant 1 to 4, then 1 to 8, such as "46"',
  cement: SITES_SEEN.join(', '),
  coreInside: 'true, false, or null when nobody looked',
  seated: 'a date as YYYY-MM-DD',
  lost: 'a date as YYYY-MM-DD, not before the day it was seated',
  days: 'whole days in place, 0 to 36525; instead of lost, not beside it',
  form: 'holds, lacks, not-known',
  known: `a list of: ${Object.keys(DEBOND_EVENTS).join(', ')}`,
} as const satisfies Readonly<Record<keyof Findings, string>>;

/** One thing wrong with findings: where, and what is allowed there. */
export interface FindingsProblem {
  readonly field: string;
  readonly message: string;
}
export type CheckedFindings =
  | { readonly ok: true; readonly findings: Findings }
  | { readonly ok: false; readonly problems: readonly FindingsProblem[] };

const isField = (key: PropertyKey | undefined): key is keyof Findings =>
  typeof key === 'string' && Object.hasOwn(FINDINGS_FIELDS, key);

function shown(value: unknown): string {
  if (value === undefined) return 'missing';
  const spelt = JSON.stringify(value) ?? 'this';
  return `${spelt.length > 60 ? `${spelt.slice(0, 57)}...` : spelt} is not allowed`;
}

function problemsOf(issue: z.core.$ZodIssue, given: unknown): FindingsProblem[] {
  if (issue.code === 'unrecognized_keys') {
    const message = `not a field of findings; fields: ${Object.keys(FINDINGS_FIELDS).join(', ')}`;
    return issue.keys.map((field) => ({ field, message }));
  }
  const [key, index] = issue.path;
  if (!isField(key)) return [{ field: 'findings', message: 'findings are one JSON object' }];
  const whole: unknown =
    typeof given === 'object' && given !== null ? Reflect.get(given, key) : undefined;
  const value: unknown = index !== undefined && Array.isArray(whole) ? whole[Number(index)] : whole;
  const field = index === undefined ? key : `${key}[${String(index)}]`;
  return [{ field, message: `${shown(value)}; allowed: ${FINDINGS_FIELDS[key]}` }];
}

/** The fields that are sound, so that what they say together is judged beside a faulty one. */
const LooseDates = z
  .object({
    seated: day.optional().catch(undefined),
    lost: day.optional().catch(undefined),
    days: z.number().optional().catch(undefined),
  })
  .catch({});

function together(given: unknown): FindingsProblem[] {
  const { seated, lost, days } = LooseDates.parse(given);
  const problems: FindingsProblem[] = [];
  if (days !== undefined && lost !== undefined) {
    problems.push({
      field: 'days',
      message: `given beside lost; allowed: ${FINDINGS_FIELDS.days}`,
    });
  }
  const from = dayOf(seated ?? '');
  const to = dayOf(lost ?? '');
  if (from !== null && to !== null && to < from) {
    problems.push({
      field: 'lost',
      message: `"${lost}" is before the day it was seated, "${seated}"; allowed: ${FINDINGS_FIELDS.lost}`,
    });
  }
  return problems;
}

/** Anything to findings, or every problem at once with its field and what is allowed. */
export function checkFindings(given: unknown): CheckedFindings {
  const parsed = Findings.safeParse(given);
  const problems = [
    ...(parsed.success ? [] : parsed.error.issues.flatMap((issue) => problemsOf(issue, given))),
    ...together(given),
  ];
  if (parsed.success && problems.length === 0) return { ok: true, findings: parsed.data };
  return { ok: false, problems };
}
