/** A place in a text, both counted from 1. */
export interface Position {
  readonly line: number;
  readonly column: number;
}

/** A text is not a usable JSGF grammar. The message carries place, what was found and what was expected. */
export class JsgfError extends Error {
  readonly line: number;
  readonly column: number;
  readonly expected: string;

  constructor(at: Position, found: string, expected: string) {
    super(`line ${at.line}, column ${at.column}: ${found}; expected ${expected}`);
    this.name = 'JsgfError';
    this.line = at.line;
    this.column = at.column;
    this.expected = expected;
  }
}
