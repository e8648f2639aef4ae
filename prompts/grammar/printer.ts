import type { Alternative, Expansion, Grammar, Rule } from './ast.ts';

/** The grammar as JSGF text; parsing it gives the same tree. */
export function printJsgf(grammar: Grammar): string {
  const header = [
    '#JSGF V1.0',
    grammar.encoding,
    grammar.encoding === null ? null : grammar.locale,
  ];
  const lines = [
    `${header.filter((part) => part !== null).join(' ')};`,
    `grammar ${grammar.name};`,
    ...grammar.rules.map(printRule),
  ];
  return `${lines.join('\n')}\n`;
}

function printRule(rule: Rule): string {
  return `${rule.isPublic ? 'public ' : ''}<${rule.name}> = ${print(rule.expansion)};`;
}

function print(node: Expansion): string {
  switch (node.kind) {
    case 'word':
      return printWord(node.text);
    case 'reference':
      return `<${node.name}>`;
    case 'sequence':
      return node.items.map(printItem).join(' ');
    case 'alternatives':
      return node.options.map(printOption).join(' | ');
    case 'optional':
      return `[${print(node.item)}]`;
    case 'repeat':
      return `${printItem(node.item)}${node.least === 0 ? '*' : '+'}`;
    case 'tagged':
    default:
      return `${printItem(node.item)} {${node.tag.replace(/[\\}]/g, '\\$&')}}`;
  }
}

function printOption({ weight, expansion }: Alternative): string {
  // Number's own text may be 1e-7, which reads back the same.
  const text = expansion.kind === 'alternatives' ? `(${print(expansion)})` : print(expansion);
  return weight === null ? text : `/${weight}/ ${text}`;
}

/** Something that binds tightly enough to stand in a sequence or before a `*`. */
function printItem(node: Expansion): string {
  return node.kind === 'sequence' || node.kind === 'alternatives'
    ? `(${print(node)})`
    : print(node);
}

function printWord(text: string): string {
  const plain = !/[\s;=|*+<>()[\]{}/"\\]/.test(text);
  return plain ? text : `"${text.replace(/[\\"]/g, '\\$&')}"`;
}
