import type { Outcome, Refusal } from '../../machines/contract/index.ts';

/** A refusal as the record keeps it, with nothing but what the test names. */
export function refusedAs(id: Refusal['id'], more: Partial<Refusal> = {}): Outcome {
  return {
    kind: 'refused',
    refusal: { id, step: null, wayOn: null, seconds: null, overridable: true, ...more },
  };
}
