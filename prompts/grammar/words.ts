import type { Expansion, Grammar } from './ast.ts';

/** Every word that a grammar's rules hold, lower case, each once. */
export function wordsIn({ rules }: Grammar): ReadonlySet<string> {
  const words = new Set<string>();
  const visit = (node: Expansion): void => {
    switch (node.kind) {
      case 'word':
        for (const word of node.text.toLowerCase().split(/\s+/)) if (word !== '') words.add(word);
        return;
      case 'reference':
        return;
      case 'sequence':
        node.items.forEach(visit);
        return;
      case 'alternatives':
        node.options.forEach(({ expansion }) => visit(expansion));
        return;
      case 'optional':
      case 'repeat':
      case 'tagged':
        visit(node.item);
    }
  };
  for (const { expansion } of rules) visit(expansion);
  return words;
}
