/** An element of an XML document, its text escaped when it is written. */
export interface Element {
  readonly name: string;
  readonly attributes?: Readonly<Record<string, string>>;
  /** Elements inside it, or its text. */
  readonly inside?: readonly Element[] | string;
}

/** What XML 1.0 has no character for: most controls, lone surrogates, two non-characters. */
const NO_CHARACTER = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  '\t': '&#9;',
  '\n': '&#10;',
  '\r': '&#13;',
};

/** Text as XML has it; what XML can't have becomes U+FFFD. */
const escaped = (text: string): string =>
  text.replace(NO_CHARACTER, '\uFFFD').replace(/[&<>"\t\n\r]/g, (one) => ESCAPES[one] ?? one);

function lines({ name, attributes = {}, inside = [] }: Element, indent: string): string {
  const pairs = Object.entries(attributes).map(([key, value]) => ` ${key}="${escaped(value)}"`);
  const open = `${indent}<${name}${pairs.join('')}`;
  if (typeof inside === 'string') return `${open}>${escaped(inside)}</${name}>\n`;
  if (inside.length === 0) return `${open}/>\n`;
  const within = inside.map((each) => lines(each, `${indent}  `)).join('');
  return `${open}>\n${within}${indent}</${name}>\n`;
}

/** An XML 1.0 document in UTF-8. */
export const xmlText = (root: Element): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n${lines(root, '')}`;
