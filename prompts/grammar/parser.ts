import type { Alternative, Expansion, Grammar, Reference, Rule } from './ast.ts';
import { checkRules } from './check.ts';
import { JsgfError, type Position } from './error.ts';
import { describe, Lexer, type Token } from './lexer.ts';

const HEADER = /^\uFEFF?\s*#JSGF\s+V(\d+\.\d+)(?:[ \t]+([^\s;]+))?(?:[ \t]+([^\s;]+))?[ \t]*;/;

/**
 * Reads a JSGF text.
 * @throws JsgfError where the text is not JSGF, names a rule that is not defined or defined twice,
 * is left-recursive, has no public rule, or imports another grammar (a text must be whole).
 */
export function parseJsgf(text: string): Grammar {
  const header = HEADER.exec(text);
  if (header === null) {
    throw new JsgfError({ line: 1, column: 1 }, 'no JSGF header', '#JSGF V1.0;');
  }
  if (header[1] !== '1.0') {
    throw new JsgfError({ line: 1, column: 1 }, `JSGF version ${header[1]}`, '#JSGF V1.0;');
  }
  const parser = new Parser(new Lexer(text, header[0].length).tokens());
  return parser.grammar(header[2] ?? null, header[3] ?? null);
}

/** Recursive descent over the tokens of one text. */
class Parser {
  readonly #tokens: readonly Token[];
  readonly #references = new Map<Reference, Position>();
  #index = 0;

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
  }

  grammar(encoding: string | null, locale: string | null): Grammar {
    if (!this.#isWord('grammar')) this.#fail('"grammar" and the grammar\'s name');
    this.#take();
    const name = this.#expect('word', "the grammar's name").text;
    this.#mark(';');
    const rules: Rule[] = [];
    const places = new Map<string, Position>();
    while (this.#peek().kind !== 'end') {
      const at = this.#peek().at;
      if (this.#isWord('import'))
        this.#fail('a rule: imports are not supported, copy the rules in');
      const rule = this.#rule();
      if (places.has(rule.name)) {
        throw new JsgfError(at, `<${rule.name}> is defined twice`, 'one definition of each rule');
      }
      places.set(rule.name, at);
      rules.push(rule);
    }
    if (!rules.some((rule) => rule.isPublic)) this.#fail('at least one public rule');
    const grammar = { name, encoding, locale, rules };
    checkRules(grammar, this.#references, places);
    return grammar;
  }

  #rule(): Rule {
    const isPublic = this.#isWord('public');
    if (isPublic) this.#take();
    const name = this.#expect('rule', 'a rule: "public <name> = …;" or "<name> = …;"');
    if (name.text === 'NULL' || name.text === 'VOID') {
      throw new JsgfError(name.at, `<${name.text}> cannot be defined`, 'another rule name');
    }
    this.#mark('=');
    const expansion = this.#alternatives();
    this.#mark(';');
    return { name: name.text, isPublic, expansion };
  }

  #alternatives(): Expansion {
    const options: Alternative[] = [this.#alternative()];
    while (this.#isMark('|')) {
      this.#take();
      options.push(this.#alternative());
    }
    const [only] = options;
    if (options.length === 1 && only !== undefined && only.weight === null) return only.expansion;
    return { kind: 'alternatives', options };
  }

  #alternative(): Alternative {
    let weight: number | null = null;
    if (this.#peek().kind === 'weight') {
      const token = this.#take();
      weight = Number(token.text);
      if (token.text.trim() === '' || !(weight >= 0) || !Number.isFinite(weight)) {
        throw new JsgfError(token.at, `weight /${token.text}/`, 'a number of 0 or more');
      }
    }
    const items = [this.#postfix()];
    while (this.#startsItem()) items.push(this.#postfix());
    const [only] = items;
    const single = items.length === 1 && only !== undefined;
    return { weight, expansion: single ? only : { kind: 'sequence', items } };
  }

  #startsItem(): boolean {
    const { kind } = this.#peek();
    return (
      kind === 'word' ||
      kind === 'string' ||
      kind === 'rule' ||
      this.#isMark('(') ||
      this.#isMark('[')
    );
  }

  #postfix(): Expansion {
    let item = this.#item();
    for (;;) {
      if (this.#isMark('*') || this.#isMark('+')) {
        item = { kind: 'repeat', least: this.#take().text === '+' ? 1 : 0, item };
      } else if (this.#peek().kind === 'tag') {
        item = { kind: 'tagged', item, tag: this.#take().text };
      } else return item;
    }
  }

  #item(): Expansion {
    const token = this.#peek();
    if (token.kind === 'word' || token.kind === 'string') {
      this.#take();
      const text = token.text.trim().replace(/\s+/g, ' ');
      if (text === '') throw new JsgfError(token.at, 'an empty string', 'words to say, or <NULL>');
      return { kind: 'word', text };
    }
    if (token.kind === 'rule') {
      this.#take();
      const reference: Reference = { kind: 'reference', name: token.text };
      this.#references.set(reference, token.at);
      return reference;
    }
    if (this.#isMark('(') || this.#isMark('[')) {
      const open = this.#take().text;
      const item = this.#alternatives();
      this.#mark(open === '(' ? ')' : ']');
      return open === '(' ? item : { kind: 'optional', item };
    }
    return this.#fail('a word, <rule>, ( or [');
  }

  #peek(): Token {
    const token = this.#tokens[Math.min(this.#index, this.#tokens.length - 1)];
    if (token === undefined) throw new RangeError('a token list ends with its end token');
    return token;
  }

  #take(): Token {
    const token = this.#peek();
    this.#index++;
    return token;
  }

  #isMark(text: string): boolean {
    return this.#peek().kind === 'mark' && this.#peek().text === text;
  }

  #isWord(text: string): boolean {
    return this.#peek().kind === 'word' && this.#peek().text === text;
  }

  #expect(kind: Token['kind'], expected: string): Token {
    return this.#peek().kind === kind ? this.#take() : this.#fail(expected);
  }

  #mark(text: string): void {
    if (this.#isMark(text)) this.#take();
    else this.#fail(`"${text}"`);
  }

  #fail(expected: string): never {
    const token = this.#peek();
    throw new JsgfError(token.at, `found ${describe(token)}`, expected);
  }
}
