import type { Entry, Header } from '../contract/index.ts';
import { advance } from './advance.ts';
import { initialState } from './state.ts';

/** A record that was read, with its lines as they were written. */
interface ReadRecord {
  readonly header: Header;
  readonly entries: readonly Entry[];
  readonly written: { readonly lines: readonly object[] };
}

/**
 * A record's entries, each with the step its command was taken to mean. Version 0.1.0 did not
 * write that down: where it is missing it is worked out by carrying the commands out again, for
 * as long as they come to what the record says. Entries that say it are left as they are.
 */
export function withMeantSteps({ header, entries, written }: ReadRecord): readonly Entry[] {
  const silent = entries.some((_, i) => !Object.hasOwn(written.lines[i] ?? {}, 'step'));
  if (!silent) return entries;
  let state = initialState(header.case, header.plan);
  let same = true;
  return entries.map((entry, i) => {
    if (!same) return entry;
    const result = advance(state, entry.command, entry.stamp);
    same = result.outcome.kind === entry.outcome.kind;
    state = result.state;
    const says = Object.hasOwn(written.lines[i] ?? {}, 'step');
    return says || !same ? entry : { ...entry, step: result.step };
  });
}
