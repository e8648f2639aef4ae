import { z } from 'zod';
import { CaseFile } from '../contract/index.ts';

const Node = z.looseObject({
  type: z.string().optional(),
  description: z.string().optional(),
  enum: z.array(z.unknown()).optional(),
  const: z.unknown().optional(),
  format: z.string().optional(),
  minimum: z.number().optional(),
  exclusiveMinimum: z.number().optional(),
  maximum: z.number().optional(),
  minLength: z.number().optional(),
  maxLength: z.number().optional(),
  minItems: z.number().optional(),
  maxItems: z.number().optional(),
  properties: z.record(z.string(), z.unknown()).optional(),
  items: z.unknown().optional(),
  anyOf: z.array(z.unknown()).optional(),
});
type Node = z.infer<typeof Node>;

let schema: unknown;

/** The JSON Schema of a case as a person writes it, defaults left out. */
export const caseSchema = (): unknown => {
  schema ??= z.toJSONSchema(CaseFile, { io: 'input', target: 'draft-2020-12' });
  return schema;
};

const UNIT_OF: readonly (readonly [RegExp, string])[] = [
  [/mwCm2$/, ' mW/cm2'],
  [/Mm$/, ' mm'],
  [/Deg$/, ' degrees'],
  [/Um$/, ' micrometres'],
  [/C$/, ' degrees C'],
  [/S$/, ' s'],
  [/^bar$/, ' bar'],
  [/^percent$/, ' %'],
];
const unitOf = (key: string): string => UNIT_OF.find(([ending]) => ending.test(key))?.[1] ?? '';

/** Two ends in words; empty when there are none. */
const range = (low: number | undefined, high: number | undefined, unit: string): string => {
  if (low !== undefined && high !== undefined) return ` from ${low} to ${high}${unit}`;
  if (low !== undefined) return ` from ${low}${unit} up`;
  return high === undefined ? '' : ` up to ${high}${unit}`;
};

/** The node itself and, where it may be null or another shape, its branches. */
const branches = (given: unknown): Node[] => {
  const parsed = Node.safeParse(given);
  if (!parsed.success) return [];
  return [parsed.data, ...(parsed.data.anyOf ?? []).flatMap(branches)];
};

const child = (node: unknown, key: PropertyKey): unknown =>
  branches(node)
    .map((branch) => (typeof key === 'number' ? branch.items : branch.properties?.[String(key)]))
    .find((found) => found !== undefined);

const shapeOf = (node: Node, key: string): string[] => {
  if (node.const !== undefined) return [JSON.stringify(node.const)];
  if (node.enum !== undefined) return node.enum.map((value) => JSON.stringify(value));
  const unit = unitOf(key);
  switch (node.type) {
    case 'number':
    case 'integer': {
      const above =
        node.exclusiveMinimum === undefined ? '' : ` above ${node.exclusiveMinimum}${unit}`;
      return [`a number${above}${range(node.minimum, node.maximum, unit)}`];
    }
    case 'string':
      return node.format === 'date'
        ? ['a date, as "2030-01-31"']
        : [`text${range(node.minLength, node.maxLength, ' characters')}`];
    case 'array':
      return [`a list${range(node.minItems, node.maxItems, ' entries')}`];
    case 'boolean':
      return ['true', 'false'];
    case 'null':
      return ['null'];
    case 'object':
      return [`an object with ${Object.keys(node.properties ?? {}).join(', ')}`];
    default:
      return [];
  }
};

/** What a case allows at a path, in words; empty for a path it does not know. */
export const allowedAt = (path: readonly PropertyKey[]): string => {
  const node = path.reduce<unknown>(child, caseSchema());
  const found = branches(node);
  const shapes = found.flatMap((branch) => shapeOf(branch, String(path.at(-1) ?? '')));
  const described = found.find(({ description }) => description !== undefined)?.description;
  const told = shapes.length > 20 ? [] : shapes;
  const words = [told.join(' or '), described ?? ''].filter((text) => text !== '');
  return words.length === 2 ? `${words[0]} (${words[1]})` : (words[0] ?? '');
};
