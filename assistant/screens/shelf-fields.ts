/** Text fields over a draft. */
import type { TemplateResult } from 'lit';
import { type TextField, textField } from './field.ts';
import type { FieldProblem } from './problem.ts';

type Problems = readonly FieldProblem[];

/** A text field of some draft: which key of it, and the path of that in the case file. */
export function fieldsOf<T>(
  draft: T,
  base: string,
  set: (draft: T) => void,
  problems: Problems,
): <K extends keyof T>(
  key: K & (T[K] extends string ? K : never),
  path: string,
  label: string,
  more?: Partial<Pick<TextField, 'unit' | 'hint' | 'kind'>>,
) => TemplateResult {
  return (key, path, label, more = {}) =>
    textField(
      {
        path: `${base}.${path}`,
        label,
        value: String(draft[key]),
        set: (value) => set({ ...draft, [key]: value }),
        ...more,
      },
      problems,
    );
}
