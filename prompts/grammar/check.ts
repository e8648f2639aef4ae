import type { Expansion, Grammar, Reference } from './ast.ts';
import { JsgfError, type Position } from './error.ts';

/** Resolves a reference, with or without the grammar's own name before it, to a rule's name. */
export function localName(grammar: Grammar, name: string): string {
  const short = grammar.name.slice(grammar.name.lastIndexOf('.') + 1);
  for (const prefix of [`${grammar.name}.`, `${short}.`]) {
    if (name.startsWith(prefix)) return name.slice(prefix.length);
  }
  return name;
}

/** @throws JsgfError at the first reference to nothing, or the first left-recursive rule. */
export function checkRules(
  grammar: Grammar,
  references: ReadonlyMap<Reference, Position>,
  places: ReadonlyMap<string, Position>,
): void {
  for (const [reference, at] of references) {
    const name = localName(grammar, reference.name);
    if (name !== 'NULL' && name !== 'VOID' && !places.has(name)) {
      const known = [...places.keys()].map((rule) => `<${rule}>`).join(', ');
      throw new JsgfError(at, `<${reference.name}> is not defined`, `one of ${known}`);
    }
  }
  const nullable = nullableRules(grammar);
  const leading = new Map(
    grammar.rules.map((rule) => [rule.name, leads(grammar, rule.expansion, nullable)]),
  );
  for (const rule of grammar.rules) {
    const loop = findLoop(rule.name, leading);
    if (loop !== null) {
      const path = loop.map((name) => `<${name}>`).join(' → ');
      const at = places.get(rule.name) ?? { line: 1, column: 1 };
      throw new JsgfError(
        at,
        `left recursion ${path}`,
        'a word to be said before a rule comes again',
      );
    }
  }
}

/** Rules that can be said by saying nothing. */
function nullableRules(grammar: Grammar): ReadonlySet<string> {
  const nullable = new Set(['NULL']);
  let before = 0;
  while (nullable.size !== before) {
    before = nullable.size;
    for (const rule of grammar.rules) {
      if (isNullable(grammar, rule.expansion, nullable)) nullable.add(rule.name);
    }
  }
  return nullable;
}

function isNullable(grammar: Grammar, node: Expansion, nullable: ReadonlySet<string>): boolean {
  switch (node.kind) {
    case 'word':
      return false;
    case 'reference':
      return nullable.has(localName(grammar, node.name));
    case 'sequence':
      return node.items.every((item) => isNullable(grammar, item, nullable));
    case 'alternatives':
      return node.options.some((option) => isNullable(grammar, option.expansion, nullable));
    case 'optional':
      return true;
    case 'repeat':
      return node.least === 0 || isNullable(grammar, node.item, nullable);
    case 'tagged':
    default:
      return isNullable(grammar, node.item, nullable);
  }
}

/** Rules that can come first in an expansion, before any word. */
function leads(grammar: Grammar, node: Expansion, nullable: ReadonlySet<string>): string[] {
  switch (node.kind) {
    case 'word':
      return [];
    case 'reference':
      return [localName(grammar, node.name)];
    case 'sequence': {
      const stop = node.items.findIndex((item) => !isNullable(grammar, item, nullable));
      const reach = stop === -1 ? node.items : node.items.slice(0, stop + 1);
      return reach.flatMap((item) => leads(grammar, item, nullable));
    }
    case 'alternatives':
      return node.options.flatMap((option) => leads(grammar, option.expansion, nullable));
    case 'optional':
    case 'repeat':
    case 'tagged':
    default:
      return leads(grammar, node.item, nullable);
  }
}

/** A way from `start` through first rules back to `start`, or null. */
function findLoop(start: string, leading: ReadonlyMap<string, readonly string[]>): string[] | null {
  const seen = new Set<string>();
  const walk = (name: string, path: string[]): string[] | null => {
    for (const next of leading.get(name) ?? []) {
      if (next === start) return [...path, next];
      if (seen.has(next)) continue;
      seen.add(next);
      const loop = walk(next, [...path, next]);
      if (loop !== null) return loop;
    }
    return null;
  };
  return walk(start, [start]);
}
