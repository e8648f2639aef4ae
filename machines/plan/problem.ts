import type { z } from 'zod';
import { TEETH } from '../contract/index.ts';
import {
  fromPalmer,
  fromPrimaryLetter,
  fromUniversal,
  primaryLetterOf,
  primaryName,
} from '../form/index.ts';
import { allowedAt } from './allowed.ts';

/** One thing wrong with a case: where, as `units[0].tooth`, and what is allowed there. */
export interface CaseProblem {
  readonly field: string;
  readonly message: string;
}

/** A path as people write it; the case itself is `case`. */
export const fieldName = (path: readonly PropertyKey[]): string =>
  path.reduce<string>((name, key) => {
    if (typeof key === 'number') return `${name}[${key}]`;
    return name === '' ? String(key) : `${name}.${String(key)}`;
  }, '') || 'case';

const isRecord = (value: unknown): value is Readonly<Record<PropertyKey, unknown>> =>
  typeof value === 'object' && value !== null;

/** What was given at a path; undefined when nothing was. */
const at = (given: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>((value, key) => (isRecord(value) ? value[key] : undefined), given);

const shown = (value: unknown): string => {
  if (value === undefined) return 'missing';
  if (value === null) return 'null';
  if (Array.isArray(value)) return 'a list';
  if (typeof value !== 'string' && typeof value !== 'number' && typeof value !== 'boolean') {
    return `an ${typeof value}`;
  }
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
};

/**
 * Why no plan is made for a primary tooth. The limits of form, thickness and light are those of
 * permanent teeth; what usually covers a primary one has no inside to condition (common practice).
 */
const NO_PRIMARY =
  'out of scope, because the limits of form, thickness and light here are those of permanent teeth, and a primary tooth is usually covered by a preformed crown that is not conditioned inside (common practice)';

/** Another reading of a tooth that ISO 3950 does not have. */
const otherReading = (value: unknown): string => {
  if (typeof value === 'number' && TEETH.includes(String(value))) {
    return `; write it as text: "${value}"`;
  }
  const text = typeof value === 'string' ? value.trim() : String(value);
  const palmer = fromPalmer(text);
  if (palmer !== null) return `; ${text} in Palmer notation is ${palmer} in ISO 3950`;
  const primary = primaryLetterOf(text) === null ? fromPrimaryLetter(text) : text;
  if (primary !== null) {
    return `; ${text} is the ${primaryName(primary) ?? ''} (${primary} in ISO 3950, ${primaryLetterOf(primary) ?? ''} in the Universal system): ${NO_PRIMARY}`;
  }
  const number = typeof value === 'string' || typeof value === 'number' ? Number(value) : 0;
  const tooth = fromUniversal(number);
  return tooth === null ? '' : `; ${number} in the Universal system is ${tooth} in ISO 3950`;
};

/** A schema issue as problems, one for each unknown key. */
export const problemsOf = (issue: z.core.$ZodIssue, given: unknown): CaseProblem[] => {
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      field: fieldName([...issue.path, key]),
      message: `not a field of a case; allowed here: ${allowedAt(issue.path)}`,
    }));
  }
  const value = at(given, issue.path);
  const told = value === undefined ? 'missing' : `${shown(value)} is not allowed`;
  const names = issue.path.at(-1) === 'tooth' || issue.path.at(-2) === 'pontics';
  const tooth = names && value !== undefined ? otherReading(value) : '';
  return [
    {
      field: fieldName(issue.path),
      message: `${told}; allowed: ${allowedAt(issue.path)}${tooth}`,
    },
  ];
};
