import type { Header } from '../../contract/index.ts';
import type { Alignment, GradedDeviation } from '../deviation.ts';
import type { ProcessNet } from '../net/process-net.ts';
import type { Trace } from '../trace/activity.ts';
import { fromMoves, movedBy } from './moves.ts';
import { fromClaims, fromForce } from './said.ts';
import { fromDelays, fromDwells } from './times.ts';

const firstOf = ({ entries }: GradedDeviation): number => entries[0] ?? Number.MAX_SAFE_INTEGER;

/**
 * Every departure of a record from its plan: from the alignment what was not done, out of order or
 * the wrong agent; from the clocks what was short, long or late; from the answers what was forced or
 * only said. In the order of the record; what is only missing comes last.
 */
export function grade(
  header: Header,
  trace: Trace,
  alignment: Alignment,
  net: ProcessNet,
): readonly GradedDeviation[] {
  return [
    ...fromMoves(header, trace, alignment, movedBy(net)),
    ...fromDwells(header, trace),
    ...fromDelays(header, trace),
    ...fromForce(header, trace),
    ...fromClaims(header, trace),
  ].toSorted((one, other) => firstOf(one) - firstOf(other));
}
