import type { Expansion, Grammar } from './ast.ts';
import { localName } from './check.ts';

/** A grammar without end, or with more sentences than asked for. */
export class TooManySentences extends Error {
  override readonly name = 'TooManySentences';
}

/**
 * Every sentence of a finite rule, words parted by single spaces, in the order written. Repetition
 * and recursion have no end, and count as too many.
 * @throws TooManySentences beyond `most` sentences at any place; Error when there is no such rule.
 */
export function sentencesOf(grammar: Grammar, ruleName: string, most = 10_000): readonly string[] {
  const rules = new Map(grammar.rules.map((rule) => [rule.name, rule.expansion]));
  const open = new Set<string>();

  const checked = (texts: readonly string[]): readonly string[] => {
    if (texts.length > most) throw new TooManySentences(`more than ${most} in <${ruleName}>`);
    return texts;
  };

  const rule = (name: string): readonly string[] => {
    if (name === 'NULL') return [''];
    if (name === 'VOID') return [];
    const expansion = rules.get(name);
    if (expansion === undefined) throw new Error(`no rule <${name}>`);
    if (open.has(name)) throw new TooManySentences(`<${name}> is recursive`);
    open.add(name);
    const texts = expand(expansion);
    open.delete(name);
    return texts;
  };

  const expand = (node: Expansion): readonly string[] => {
    switch (node.kind) {
      case 'word':
        return [node.text.toLowerCase()];
      case 'reference':
        return rule(localName(grammar, node.name));
      case 'sequence':
        return node.items.reduce<readonly string[]>(
          (heads, item) => {
            const tails = expand(item);
            return checked(heads.flatMap((head) => tails.map((tail) => `${head} ${tail}`.trim())));
          },
          [''],
        );
      case 'alternatives':
        return checked(node.options.flatMap(({ expansion }) => expand(expansion)));
      case 'optional':
        return ['', ...expand(node.item)];
      case 'repeat':
        throw new TooManySentences('a repetition has no end');
      case 'tagged':
      default:
        return expand(node.item);
    }
  };
  return [...new Set(rule(ruleName))];
}
