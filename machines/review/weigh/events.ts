import type { Material } from '../../contract/index.ts';
import { DEBOND_EVENTS, materialOf, WEIGHING } from '../../trade/index.ts';
import type { Cause, DebondEvent, DebondEventId } from '../../trade/index.ts';
import type { GradedDeviation, ReviewedUnit } from '../deviation.ts';

/** An event of the seating that speaks for a cause, and how it is known. */
export interface SeenEvent {
  readonly id: DebondEventId;
  readonly event: DebondEvent;
  /** Entries of the record that show it; empty when it is known from elsewhere, or by what is missing. */
  readonly entries: readonly number[];
  readonly from: 'record' | 'findings';
  /** The departures it was taken from, as `cleaner short`: an event's name says more than a cut short cleaning does. */
  readonly shownBy: readonly string[];
}

const isEvent = (id: string): id is DebondEventId => Object.hasOwn(DEBOND_EVENTS, id);

/** Every event of the table under its id. */
export const allEvents = (): readonly (readonly [DebondEventId, DebondEvent])[] =>
  Object.entries(DEBOND_EVENTS).flatMap(([id, event]) =>
    isEvent(id) ? [[id, event] as const] : [],
  );

/** A cure counts as short only below the table's share of what was asked; other dwells as graded. */
function tooLittle(id: DebondEventId, { grade, measured }: GradedDeviation): boolean {
  if (id !== 'under-cured' || grade !== 'short' || measured === null) return true;
  const asked = measured.targetS ?? measured.minS;
  return asked === null || measured.seconds < asked * WEIGHING.underCured.value;
}

function shows(id: DebondEventId, event: DebondEvent, deviation: GradedDeviation): boolean {
  const { steps, late, forced } = event.shown;
  const { grade, step, refusal, redone, since } = deviation;
  // What was served in full later on is as if it had not been short.
  if (redone !== undefined) return false;
  if (grade === 'refused and forced') return refusal !== null && (forced ?? []).includes(refusal);
  if (step === null) return false;
  if (grade === 'late') return since !== undefined && (late?.[since] ?? []).includes(step);
  return (steps?.[grade] ?? []).includes(step) && tooLittle(id, deviation);
}

/** Whether the event can happen to a restoration of this material; unknown material, any. */
export function concerns({ shown }: DebondEvent, material: Material | null): boolean {
  return (
    shown.texture === undefined ||
    material === null ||
    materialOf(material).texture === shown.texture
  );
}

/** The events that these deviations and findings show for a unit, and those known otherwise. */
export function eventsSeen(
  deviations: readonly GradedDeviation[],
  known: readonly DebondEventId[],
  material: Material | null,
  findings: ReviewedUnit['findings'] = [],
): readonly SeenEvent[] {
  return allEvents().flatMap(([id, event]): SeenEvent[] => {
    if (known.includes(id)) return [{ id, event, entries: [], from: 'findings', shownBy: [] }];
    if (!concerns(event, material)) return [];
    const showing = deviations.filter((deviation) => shows(id, event, deviation));
    const said = findings.filter(({ finding }) => event.shown.findings?.includes(finding) ?? false);
    if (showing.length + said.length === 0) return [];
    const all = [...showing.flatMap((one) => one.entries), ...said.map(({ entry }) => entry)];
    const entries = [...new Set(all)];
    const departures = showing.map(({ grade, step, refusal }) =>
      `${(step ?? refusal ?? '').replaceAll('-', ' ')} ${grade}`.trim(),
    );
    const shownBy = [
      ...new Set([
        ...departures,
        ...said.map(({ finding }) => `found: ${finding.replaceAll('-', ' ')}`),
      ]),
    ];
    return [{ id, event, entries: entries.toSorted((a, b) => a - b), from: 'record', shownBy }];
  });
}

/** Of the events that speak for a cause the strongest: steps are not independent, so one counts. */
export function strongest(seen: readonly SeenEvent[], cause: Cause): SeenEvent | null {
  return (
    seen
      .filter(({ event }) => event.causes.includes(cause))
      .toSorted((one, other) => other.event.ratio.target - one.event.ratio.target)[0] ?? null
  );
}
