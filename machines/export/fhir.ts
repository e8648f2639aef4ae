import { canonical, type Verified } from '../record/index.ts';
import { courseOf } from './course.ts';
import { devicesOf } from './fhir-devices.ts';
import {
  base64,
  type JsonObject,
  metaOf,
  nameOfDigest,
  reference,
  type Resource,
  some,
  text,
  uriIdentifier,
  uuidOf,
} from './fhir-parts.ts';
import {
  actorOf,
  dwellObservation,
  type Parts,
  rolesOf,
  stepProcedure,
  unitProcedure,
} from './fhir-procedures.ts';

/** A Bundle of HL7 FHIR R4 (4.0.1), type collection. */
export interface FhirBundle extends JsonObject {
  readonly resourceType: 'Bundle';
  readonly type: 'collection';
  readonly entry: readonly { readonly fullUrl: string; readonly resource: Resource }[];
}

function softwareDevice({ header, software }: Parts): Resource {
  return {
    resourceType: 'Device',
    id: software,
    ...metaOf(header.invented),
    deviceName: [{ name: header.software, type: 'user-friendly-name' }],
    type: text('Software that kept the record; not a medical device'),
  };
}

const PARTICIPANT = 'http://terminology.hl7.org/CodeSystem/provenance-participant-type';

/** Who gave the commands, when, and what vouches for it: the record by its digest, and its seal. */
function provenance(parts: Parts, targets: readonly Resource[], headDigest: string): Resource {
  const { header, entries, closing, caseId, software } = parts;
  const last = closing?.wall ?? entries.at(-1)?.stamp.wall ?? header.opened;
  const people = rolesOf(parts).filter((role) => role !== 'seatcall');
  return {
    resourceType: 'Provenance',
    id: uuidOf(`${caseId} provenance`),
    ...metaOf(header.invented),
    target: targets.map(({ id }) => reference(id)),
    occurredPeriod: { start: header.opened, end: last },
    recorded: last,
    agent: [
      ...people.map((role) => ({
        type: { coding: [{ system: PARTICIPANT, code: 'performer', display: 'Performer' }] },
        role: [text(role)],
        who: actorOf(role, parts),
      })),
      {
        type: { coding: [{ system: PARTICIPANT, code: 'assembler', display: 'Assembler' }] },
        who: reference(software),
      },
    ],
    entity: [
      {
        role: 'source',
        what: {
          identifier: uriIdentifier(nameOfDigest(headDigest)),
          display: `Record of ${entries.length} entries: SHA-256 of its last`,
        },
      },
    ],
    ...some(
      'signature',
      closing === null
        ? null
        : [
            {
              type: [
                {
                  system: 'urn:iso-astm:E1762-95:2013',
                  code: '1.2.840.10065.1.12.1.5',
                  display: 'Verification Signature',
                },
              ],
              when: closing.wall,
              who: reference(software),
              targetFormat: 'application/jsonl',
              sigFormat: 'application/json',
              // The closing as it stands in the record: key, signature, and what it was made over.
              data: base64(new TextEncoder().encode(canonical(closing))),
            },
          ],
    ),
  };
}

/**
 * A verified record as an HL7 FHIR R4 Bundle: a Procedure for each unit, one for each step that was
 * done, left out or taken back (`partOf`), an Observation for each dwell served, a Device for each
 * lot and each restoration, and the Provenance with the record's digest and its seal. Teeth are in
 * ISO 3950. The patient is the practice's case reference and nothing else; people are their roles.
 * Resources of invented cases carry the security label HTEST. The same record gives the same text.
 */
export function toFhir(record: Verified): FhirBundle {
  const { header, entries, closing, head, caseId } = record;
  const parts: Parts = {
    header,
    entries,
    closing,
    caseId,
    course: courseOf(header, entries, closing !== null),
    devices: devicesOf(caseId, header, entries),
    software: uuidOf(`${caseId} software`),
  };
  const { performances } = parts.course;
  const procedures = [
    ...header.plan.units.map(({ tooth }) => unitProcedure(parts, tooth)),
    ...performances.map((one) => stepProcedure(parts, one)),
  ];
  const dwells = performances.flatMap((one) => dwellObservation(parts, one) ?? []);
  const resources = [
    ...procedures,
    ...dwells,
    ...parts.devices.resources,
    softwareDevice(parts),
    provenance(parts, [...procedures, ...dwells], head.digest),
  ];
  return {
    resourceType: 'Bundle',
    ...metaOf(header.invented),
    identifier: uriIdentifier(nameOfDigest(caseId)),
    type: 'collection',
    timestamp: closing?.wall ?? entries.at(-1)?.stamp.wall ?? header.opened,
    entry: resources.map((resource) => ({ fullUrl: `urn:uuid:${resource.id}`, resource })),
  };
}
