import { JsgfError, type Position } from './error.ts';

/** One piece of a JSGF text. `text` of a string or tag is without its delimiters and escapes. */
export interface Token {
  readonly kind: 'word' | 'string' | 'rule' | 'tag' | 'weight' | 'mark' | 'end';
  readonly text: string;
  readonly at: Position;
}

const MARKS = '=|*+()[];';
const NOT_IN_WORDS = /[\s;=|*+<>()[\]{}/"]/;

/** How a token is named in an error. */
export function describe(token: Token): string {
  switch (token.kind) {
    case 'end':
      return 'the end of the text';
    case 'rule':
      return `<${token.text}>`;
    case 'tag':
      return `tag {${token.text}}`;
    case 'word':
    case 'string':
    case 'weight':
    case 'mark':
    default:
      return `"${token.text}"`;
  }
}

/** Cuts a JSGF text (without its header line) into tokens; comments and white space are dropped. */
export class Lexer {
  readonly #text: string;
  #index: number;
  #line = 1;
  #lineStart = 0;

  constructor(text: string, start = 0) {
    this.#text = text;
    this.#index = 0;
    while (this.#index < start) this.#advance();
  }

  /** All tokens, the last of kind `end`. @throws JsgfError */
  tokens(): Token[] {
    const found: Token[] = [];
    for (;;) {
      const token = this.#next();
      found.push(token);
      if (token.kind === 'end') return found;
    }
  }

  #here(): Position {
    return { line: this.#line, column: this.#index - this.#lineStart + 1 };
  }

  #peek(): string {
    return this.#text.charAt(this.#index);
  }

  #advance(): string {
    const char = this.#text.charAt(this.#index++);
    if (char === '\n') {
      this.#line++;
      this.#lineStart = this.#index;
    }
    return char;
  }

  #skipBlank(): void {
    for (;;) {
      if (/\s/.test(this.#peek())) this.#advance();
      else if (this.#text.startsWith('//', this.#index)) {
        while (this.#peek() !== '' && this.#peek() !== '\n') this.#advance();
      } else if (this.#text.startsWith('/*', this.#index)) {
        const at = this.#here();
        while (!this.#text.startsWith('*/', this.#index)) {
          if (this.#advance() === '') throw new JsgfError(at, 'comment without end', '*/');
        }
        this.#advance();
        this.#advance();
      } else return;
    }
  }

  #next(): Token {
    this.#skipBlank();
    const at = this.#here();
    const char = this.#peek();
    if (char === '') return { kind: 'end', text: '', at };
    if (MARKS.includes(char)) return { kind: 'mark', text: this.#advance(), at };
    if (char === '"') return { kind: 'string', text: this.#delimited(at, '"', 'string'), at };
    if (char === '{') return { kind: 'tag', text: this.#delimited(at, '}', 'tag'), at };
    if (char === '/') return { kind: 'weight', text: this.#enclosed(at, '/', 'weight'), at };
    if (char === '<') return this.#rule(at);
    if (NOT_IN_WORDS.test(char)) {
      throw new JsgfError(at, `unexpected "${char}"`, 'a word, a rule name, or one of ( [ | ;');
    }
    let text = '';
    while (this.#peek() !== '' && !NOT_IN_WORDS.test(this.#peek())) text += this.#advance();
    return { kind: 'word', text, at };
  }

  #rule(at: Position): Token {
    // An import names all rules of a grammar with `.*`; let the parser say that it takes none.
    const text = this.#enclosed(at, '>', 'rule name').trim();
    if (text === '' || NOT_IN_WORDS.test(text.replace(/\.\*$/, ''))) {
      throw new JsgfError(
        at,
        `bad rule name <${text}>`,
        'letters, digits and -_.: between < and >',
      );
    }
    return { kind: 'rule', text, at };
  }

  /** Text up to `close` on the same line, where nothing can be escaped. */
  #enclosed(at: Position, close: string, what: string): string {
    this.#advance();
    let text = '';
    while (this.#peek() !== close) {
      if (this.#peek() === '' || this.#peek() === '\n') {
        throw new JsgfError(at, `${what} without end`, `"${close}" on the same line`);
      }
      text += this.#advance();
    }
    this.#advance();
    return text;
  }

  /** Text up to `close`, a backslash taking the next character as it is. */
  #delimited(at: Position, close: string, what: string): string {
    this.#advance();
    let text = '';
    while (this.#peek() !== close) {
      if (this.#peek() === '\\') this.#advance();
      if (this.#peek() === '') throw new JsgfError(at, `${what} without end`, `"${close}"`);
      text += this.#advance();
    }
    this.#advance();
    return text;
  }
}
