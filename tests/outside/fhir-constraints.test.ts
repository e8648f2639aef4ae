import { readFileSync } from 'node:fs';
import fhirpath from 'fhirpath';
import r4 from 'fhirpath/fhir-context/r4';
import { beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { toFhir } from '../../machines/export/index.ts';
import { verifyText } from '../../machines/record/index.ts';
import { DISILICATE_CASE, seatDisilicate, seatZirconia, ZIRCONIA_CASE } from '../chair/seatings.ts';
import { seatedRecord } from '../seated-record.ts';

/**
 * The constraints that HL7 FHIR R4 (4.0.1) states in FHIRPath, taken from its StructureDefinitions
 * (data/fhir-constraints.json, made by the script beside it), worked out by a general engine.
 */
const Constraint = z.object({
  type: z.string(),
  path: z.string(),
  key: z.string(),
  severity: z.enum(['error', 'warning']),
  human: z.string(),
  expression: z.string(),
});
const CONSTRAINTS = z
  .array(Constraint)
  .parse(JSON.parse(readFileSync('tests/outside/data/fhir-constraints.json', 'utf8')));
const Resource = z.looseObject({ resourceType: z.string() });
const Bundle = Resource.extend({ entry: z.array(z.looseObject({ resource: Resource })) });

/** The one warning that is not met: resources carry no narrative, since nothing of ours reads one. */
const NOT_MET = ['dom-6'];

/** Where a constraint looks: at its path of a resource, or at every part of its type. */
function subjectOf({ type, path, key }: z.infer<typeof Constraint>): string {
  if (['Bundle', 'Device', 'Observation', 'Procedure', 'Provenance'].includes(type)) return path;
  if (key === 'ele-1') return 'descendants()';
  // Of a reference by identifier alone R4's words come to nothing; R5 begins them with this.
  if (key === 'ref-1') return 'descendants().ofType(Reference).where(reference.exists())';
  return key === 'ext-1' ? 'descendants().extension' : `descendants().ofType(${type})`;
}

function looked(resource: z.infer<typeof Resource>, constraint: z.infer<typeof Constraint>) {
  const { type, expression } = constraint;
  const own = subjectOf(constraint);
  if (!own.startsWith('descendants') && type !== resource.resourceType) return null;
  const environment = { resource, rootResource: resource };
  const work = (text: string): unknown =>
    fhirpath.evaluate(resource, text, environment, r4, { traceFn: () => undefined });
  const [met] = z.tuple([z.boolean()]).parse(work(`${own}.all(${expression})`));
  const [many] = z.tuple([z.number()]).parse(work(`${own}.count()`));
  return { met, many };
}

/** Constraints that do not hold, and how many parts each was held against. */
function check(bundle: unknown) {
  const whole = Bundle.parse(bundle);
  const failed = new Set<string>();
  const counts = new Map<string, number>();
  for (const resource of [whole, ...whole.entry.map((one) => one.resource)]) {
    for (const constraint of CONSTRAINTS) {
      const found = looked(resource, constraint);
      if (found === null) continue;
      const { key } = constraint;
      counts.set(key, (counts.get(key) ?? 0) + found.many);
      if (!found.met) failed.add(key);
    }
  }
  return { failed: [...failed].toSorted(), counts };
}

const bundles: unknown[] = [];
beforeAll(async () => {
  const records = await Promise.all([
    seatedRecord(ZIRCONIA_CASE, seatZirconia),
    seatedRecord(DISILICATE_CASE, seatDisilicate),
  ]);
  for (const { text } of records) {
    const verdict = verifyText(text);
    if (!verdict.ok) throw new Error(verdict.message);
    bundles.push(toFhir(verdict));
  }
});

describe('the constraints of FHIR R4', () => {
  it('hold for two whole appointments, every one but that for a narrative', () => {
    for (const bundle of bundles) {
      const { failed, counts } = check(bundle);
      expect(failed).toEqual(NOT_MET);
      for (const key of ['bdl-7', 'obs-3', 'per-1', 'ref-1', 'ele-1', 'qty-3', 'dom-3'])
        expect([key, (counts.get(key) ?? 0) > 0]).toEqual([key, true]);
    }
  }, 120_000);

  it.each([
    ['bdl-7', /"fullUrl":"[^"]+"/g, '"fullUrl":"urn:uuid:00000000-0000-4000-8000-000000000000"'],
    ['per-1', /"end":"2026/g, '"end":"2020'],
    ['ref-1', /"reference":"[^"]+"/, '"reference":"#nowhere"'],
    ['bdl-1', /"type":"collection"/, '"type":"collection","total":3'],
    ['obs-6', /"valueQuantity":/, '"dataAbsentReason":{"text":"x"},"valueQuantity":'],
  ])(
    '%s: a bundle that breaks it is found',
    (key, part, other) => {
      const text = JSON.stringify(bundles[0]);
      const broken = text.replace(part, other);
      expect(broken).not.toBe(text);
      expect(check(JSON.parse(broken)).failed).toContain(key);
    },
    120_000,
  );
});
