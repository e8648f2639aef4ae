import tokenizer from 'llama-tokenizer-js';

/** Token that starts every transcript. */
export const BEGIN_TOKEN = 1;
/** Token that ends every transcript. */
export const END_TOKEN = 2;

/** A prefix tree of the vocabulary's texts, lower case, `▁` read as a space. */
export interface VocabularyNode {
  readonly children: Map<string, VocabularyNode>;
  /** Tokens whose text ends here; several where they differ only by case. */
  readonly tokens: number[];
}

let cached: VocabularyNode | null = null;

/** The vocabulary as a tree, without the control and byte tokens; built once. */
export function vocabularyTree(): VocabularyNode {
  if (cached !== null) return cached;
  const root: VocabularyNode = { children: new Map(), tokens: [] };
  tokenizer.vocabById.forEach((text, token) => {
    if (token <= END_TOKEN || /^<0x[0-9A-F]{2}>$/.test(text)) return;
    let node = root;
    for (const char of text.replaceAll('▁', ' ').toLowerCase()) {
      let child = node.children.get(char);
      if (child === undefined)
        node.children.set(char, (child = { children: new Map(), tokens: [] }));
      node = child;
    }
    node.tokens.push(token);
  });
  return (cached = root);
}
