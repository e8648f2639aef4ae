import { CaseFile } from '../contract/index.ts';
import { tradeOf } from '../trade/index.ts';
import { expiryProblems } from './expiry.ts';
import { LooseCase } from './loose.ts';
import { problemsOf } from './problem.ts';
import type { CaseProblem } from './problem.ts';
import { shelfProblems, twiceNamed } from './shelf-rules.ts';
import { unitProblems } from './unit-rules.ts';

/** A case fit for a plan, or every problem it has. */
export type CheckedCase =
  | { readonly ok: true; readonly case: CaseFile }
  | { readonly ok: false; readonly problems: readonly CaseProblem[] };

/**
 * Anything to a case, or every problem it has at once, each with its field. What the schema
 * refuses does not hide what the trade refuses: the parts that are sound are judged all the same.
 */
export const checkCase = (given: unknown): CheckedCase => {
  const parsed = CaseFile.safeParse(given);
  const loose = LooseCase.parse(given);
  const schema = parsed.success
    ? []
    : parsed.error.issues.flatMap((issue) => problemsOf(issue, given));
  const own = shelfProblems(loose.shelf, tradeOf(undefined));
  // Numbers that are themselves wrong are not reckoned with.
  const trade = tradeOf(
    own.some(({ field }) => field.startsWith('shelf.numbers')) ? undefined : loose.shelf.numbers,
  );
  // What the schema found wrong inside a field is not called missing as well.
  const told = ({ field }: CaseProblem): boolean =>
    schema.some((each) => each.field === field || each.field.startsWith(`${field}.`));
  const problems = [
    ...schema,
    ...twiceNamed(loose.units),
    ...shelfProblems(loose.shelf, trade),
    ...[
      ...loose.units.flatMap((unit, index) => unitProblems(unit, index, loose.shelf, trade)),
      ...expiryProblems(loose),
    ].filter((problem) => !told(problem)),
  ];
  if (parsed.success && problems.length === 0) return { ok: true, case: parsed.data };
  return { ok: false, problems };
};
