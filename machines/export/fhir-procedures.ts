import type { Closing, Entry, Header, Role } from '../contract/index.ts';
import { toothName } from '../form/index.ts';
import type { Course, Performance } from './course.ts';
import type { Devices } from './fhir-devices.ts';
import {
  ISO_3950,
  type Json,
  type JsonObject,
  metaOf,
  nameOfDigest,
  reference,
  type Resource,
  some,
  STEP_SYSTEM,
  text,
  UCUM,
  uriIdentifier,
  uuidOf,
} from './fhir-parts.ts';

/** All that the resources of a bundle are made of. */
export interface Parts {
  readonly header: Header;
  readonly entries: readonly Entry[];
  readonly closing: Closing | null;
  readonly caseId: string;
  readonly course: Course;
  readonly devices: Devices;
  /** Id of the Device that is the software. */
  readonly software: string;
}

/** Who gave commands, in the order of their first. */
export const rolesOf = ({ entries }: Parts): readonly Role[] => [
  ...new Set(entries.map(({ stamp }) => stamp.who)),
];

/** A person is known by the role alone. */
export const actorOf = (role: Role, { software }: Parts): JsonObject =>
  role === 'seatcall'
    ? { ...reference(software), display: role }
    : { type: 'Practitioner', display: role };

/** No patient is named in a record: whose mouth it was, the practice finds by its case reference. */
const subjectOf = ({ case: { reference: value } }: Header): JsonObject => ({
  type: 'Patient',
  identifier: { type: text('Case reference of the practice'), value },
});

const unitId = (caseId: string, tooth: string): string => uuidOf(`${caseId} unit ${tooth}`);

/** The teeth a unit stands on or replaces: one, but for a bridge. */
function sitesOf({ case: { units } }: Header, tooth: string): readonly JsonObject[] {
  const bridge = units.find((unit) => unit.tooth === tooth)?.bridge;
  const others = bridge?.retainers.map((retainer) => retainer.tooth) ?? [];
  return [tooth, ...others, ...(bridge?.pontics ?? [])].map((one) => {
    const name = toothName(one);
    return { coding: [{ system: ISO_3950, code: one, display: name }], text: name };
  });
}

function periodOf(start: string | null, end: string | null): JsonObject {
  if (start === null) return some('performedDateTime', end);
  return { performedPeriod: { start, ...some('end', end) } };
}

/** What was noted, found or reported on a unit, or beside any, each with its time. */
function notesOf({ entries, course }: Parts, tooth: string): readonly Json[] {
  const notes = entries.flatMap(({ command, outcome, stamp: { wall }, tooth: on }) => {
    if (outcome.kind !== 'accepted' || (on !== null && on !== tooth)) return [];
    if (command.type === 'note') return [{ time: wall, text: command.text }];
    if (command.type === 'find') return [{ time: wall, text: `Found: ${command.finding}` }];
    if (command.type !== 'soil') return [];
    return [{ time: wall, text: `Reported: ${command.contaminant} on the ${command.surface}` }];
  });
  if (course.differsAt === null) return notes;
  const words = `Steps from entry ${course.differsAt} on are not listed: today's rules answer otherwise than the record does.`;
  return [...notes, { text: words }];
}

const SEATED: JsonObject = {
  coding: [{ system: 'http://hl7.org/fhir/device-action', code: 'implanted' }],
  text: 'Seated',
};

/** The seating of one unit; its steps point to it by `partOf`. */
export function unitProcedure(parts: Parts, tooth: string): Resource {
  const { header, closing, course, devices, caseId } = parts;
  const plan = header.plan.units.find((unit) => unit.tooth === tooth);
  const mine = course.performances.filter((one) => one.tooth === tooth && one.scope === 'unit');
  const done = mine.filter(({ status }) => status !== 'entered-in-error');
  const seated = done.some(({ step, status }) => step === 'seat' && status === 'completed');
  const over = seated ? 'completed' : done.length === 0 ? 'not-done' : 'stopped';
  const last = parts.entries.at(-1)?.stamp.wall ?? header.opened;
  return {
    resourceType: 'Procedure',
    id: unitId(caseId, tooth),
    ...metaOf(header.invented),
    identifier: [uriIdentifier(nameOfDigest(caseId))],
    status: closing === null ? 'in-progress' : over,
    code: text(`Seating of an indirect restoration with ${plan?.cement.label ?? 'cement'}`),
    subject: subjectOf(header),
    ...periodOf(header.opened, closing === null ? null : last),
    ...some(
      'performer',
      rolesOf(parts).map((role) => ({ function: text(role), actor: actorOf(role, parts) })),
    ),
    bodySite: sitesOf(header, tooth),
    ...some('note', notesOf(parts, tooth)),
    focalDevice: [
      {
        ...(seated ? { action: SEATED } : {}),
        manipulated: reference(devices.restorationOf(tooth)),
      },
    ],
    ...some('usedReference', devices.usedOn(tooth).map(reference)),
  };
}

/** Departures from the plan in a line each; the record has them in full. */
const departures = ({ deviations }: Performance): readonly Json[] =>
  deviations.map(({ kind, servedS, reason, refusal }) => {
    const served = servedS === null ? '' : ` after ${servedS} s`;
    const why = reason === null ? '' : `; reason: ${reason}`;
    const against = refusal === null ? '' : `; refused before: ${refusal.id}`;
    return { text: `Departure from the plan: ${kind}${served}${why}${against}` };
  });

const stepId = ({ caseId }: Parts, { tooth, step, entries }: Performance): string =>
  uuidOf(`${caseId} step ${tooth} ${step} ${entries[0] ?? 0}`);

const stepCode = ({ step, title }: Performance): JsonObject => ({
  coding: [{ system: STEP_SYSTEM, code: step, display: title }],
  text: title,
});

/** One step, done once; the steps of the case are part of every unit's seating. */
export function stepProcedure(parts: Parts, one: Performance): Resource {
  const { header, caseId } = parts;
  const teeth = one.scope === 'case' ? header.plan.units.map(({ tooth }) => tooth) : [one.tooth];
  const reason = one.deviations.find(({ kind }) => kind === 'skipped')?.reason ?? null;
  return {
    resourceType: 'Procedure',
    id: stepId(parts, one),
    ...metaOf(header.invented),
    partOf: teeth.map((tooth) => reference(unitId(caseId, tooth))),
    status: one.status,
    ...some('statusReason', reason === null ? null : text(reason)),
    code: stepCode(one),
    subject: subjectOf(header),
    ...periodOf(one.start, one.end),
    ...some('bodySite', one.scope === 'case' ? [] : sitesOf(header, one.tooth)),
    ...some('note', departures(one)),
  };
}

const seconds = (value: number): JsonObject => ({ value, unit: 's', system: UCUM, code: 's' });

/** How long an agent, a light or a set was given, against the plan's window; null for a step without a dwell. */
export function dwellObservation(parts: Parts, one: Performance): Resource | null {
  const { servedS, window, end, status } = one;
  if (servedS === null || window === null || end === null) return null;
  return {
    resourceType: 'Observation',
    id: uuidOf(`${stepId(parts, one)} dwell`),
    ...metaOf(parts.header.invented),
    partOf: [reference(stepId(parts, one))],
    status: status === 'entered-in-error' ? status : 'final',
    code: { ...stepCode(one), text: `Time served: ${one.title}` },
    subject: subjectOf(parts.header),
    effectiveDateTime: end,
    valueQuantity: seconds(servedS),
    referenceRange: [
      {
        low: seconds(window.minS),
        ...some('high', window.maxS === null ? null : seconds(window.maxS)),
        text: `Planned ${window.targetS} s; source: ${window.source}`,
      },
    ],
  };
}
