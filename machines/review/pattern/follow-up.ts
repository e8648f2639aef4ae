import { z } from 'zod';
import { TEETH } from '../../contract/index.ts';
import { dayOf } from '../days.ts';

const day = z.iso.date();

/** First line of a follow-up file. */
const FollowUpHeader = z.strictObject({
  format: z.literal('seatcall-follow-up/1'),
  invented: z.boolean(),
});

/**
 * What became of one restoration, as seen at one recall. The file is only ever added to: of several
 * lines for a restoration the last day seen counts, and it is lost if any line says so.
 */
export const FollowUp = z.strictObject({
  /** The case's reference, as in its record. */
  reference: z.string().trim().min(1).max(64),
  tooth: z.enum(TEETH),
  seated: day,
  /** Last day on which somebody knew how it stood; the day it was lost, or later, if it was. */
  lastSeen: day,
  /** Day it came off; left out while it holds. */
  debonded: day.optional(),
});
export type FollowUp = z.infer<typeof FollowUp>;

/** Days followed, and whether it came off at their end. */
export interface Followed {
  readonly days: number;
  readonly lost: boolean;
}

const ALLOWED: Readonly<Record<string, string>> = {
  reference: "the case's reference, 1 to 64 characters",
  tooth: 'two digits of ISO 3950 as text, such as "46"',
  seated: 'a date as YYYY-MM-DD',
  lastSeen: 'a date as YYYY-MM-DD, not before the day it was seated',
  debonded: 'a date as YYYY-MM-DD from the day it was seated to the day last seen, or left out',
};
const FIELDS = Object.keys(ALLOWED).join(', ');

function problemsOf(issue: z.core.$ZodIssue): string[] {
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => `${key}: not a field of a follow-up line; fields: ${FIELDS}`);
  const field = String(issue.path[0] ?? '');
  return [
    field in ALLOWED
      ? `${field}: allowed is ${ALLOWED[field] ?? ''}`
      : `a follow-up line is one JSON object with ${FIELDS}`,
  ];
}

/** What the dates of a line make of it, or why they can't be. */
function followed({ seated, lastSeen, debonded }: FollowUp): Followed | string[] {
  const from = dayOf(seated) ?? 0;
  const seen = dayOf(lastSeen) ?? 0;
  const off = debonded === undefined ? null : (dayOf(debonded) ?? 0);
  const problems: string[] = [];
  if (seen < from) problems.push(`lastSeen: allowed is ${ALLOWED['lastSeen'] ?? ''}`);
  if (off !== null && (off < from || off > seen))
    problems.push(`debonded: allowed is ${ALLOWED['debonded'] ?? ''}`);
  if (problems.length > 0) return problems;
  return { days: (off ?? seen) - from, lost: off !== null };
}

/** What became of restorations, looked up by case and tooth. It grows with them: about 100 bytes each. */
export class FollowUps {
  readonly #known = new Map<string, { seated: number; days: number; lost: boolean }>();

  get size(): number {
    return this.#known.size;
  }

  /** Takes the first line of a follow-up file; gives every problem it has. */
  begin(line: unknown): readonly string[] {
    const parsed = FollowUpHeader.safeParse(line);
    if (parsed.success) return [];
    return ['the first line is {"format":"seatcall-follow-up/1","invented":true or false}'];
  }

  /** Takes one line of a follow-up file, header aside; gives every problem it has. */
  add(line: unknown): readonly string[] {
    const parsed = FollowUp.safeParse(line);
    if (!parsed.success) return parsed.error.issues.flatMap(problemsOf);
    const { reference, tooth, seated } = parsed.data;
    const one = followed(parsed.data);
    if (!('days' in one)) return one;
    const key = `${reference}\n${tooth}`;
    const start = dayOf(seated) ?? 0;
    const before = this.#known.get(key);
    if (before !== undefined && before.seated !== start)
      return [`seated: another line has another day for ${reference}, tooth ${tooth}`];
    const lost = (before?.lost ?? false) || one.lost;
    // Once it was lost, the first day it was known to be counts; until then the last day it held.
    const ends = [before, one].filter((each) => each !== undefined && each.lost === lost);
    const days = ends.map((each) => each?.days ?? 0);
    this.#known.set(key, {
      seated: start,
      days: lost ? Math.min(...days) : Math.max(...days),
      lost,
    });
    return [];
  }

  /**
   * What became of a unit seated at `seated` (ISO 8601); null when nobody looked, 'other' when the
   * follow-up is of another seating: its day is further off than a day.
   */
  of(reference: string, tooth: string, seated: string): Followed | 'other' | null {
    const known = this.#known.get(`${reference}\n${tooth}`);
    if (known === undefined) return null;
    // Wall time is UTC, the practice's day may be the next or the one before.
    if (Math.abs(known.seated - (dayOf(seated) ?? Infinity)) > 1) return 'other';
    return { days: known.days, lost: known.lost };
  }
}
