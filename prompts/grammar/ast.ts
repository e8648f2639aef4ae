/**
 * The syntax tree of a JSGF grammar (Java Speech Grammar Format, version 1.0; published as a
 * W3C Note, 5 June 2000). Plain data, no positions: printing and parsing give the same tree.
 */

/** Words to say, in their written form; a quoted token may hold several, parted by spaces. */
export interface Word {
  readonly kind: 'word';
  readonly text: string;
}

/** `<name>`: what the rule of that name allows; `NULL` and `VOID` are the standard's own. */
export interface Reference {
  readonly kind: 'reference';
  readonly name: string;
}

/** One thing after another; two items or more. */
export interface Sequence {
  readonly kind: 'sequence';
  readonly items: readonly Expansion[];
}

/** One branch of {@link Alternatives}; the weight is read and printed, and has no effect. */
export interface Alternative {
  readonly weight: number | null;
  readonly expansion: Expansion;
}

/** Exactly one of the options. */
export interface Alternatives {
  readonly kind: 'alternatives';
  readonly options: readonly Alternative[];
}

/** `[item]` */
export interface Optional {
  readonly kind: 'optional';
  readonly item: Expansion;
}

/** `item*` (least 0) or `item+` (least 1) */
export interface Repeat {
  readonly kind: 'repeat';
  readonly least: 0 | 1;
  readonly item: Expansion;
}

/** `item {tag}`; the tag is kept as text and has no effect on what is allowed. */
export interface Tagged {
  readonly kind: 'tagged';
  readonly item: Expansion;
  readonly tag: string;
}

/** What may be said at one place of a rule. */
export type Expansion = Word | Reference | Sequence | Alternatives | Optional | Repeat | Tagged;

/** One rule; a public rule may start a sentence. */
export interface Rule {
  readonly name: string;
  readonly isPublic: boolean;
  readonly expansion: Expansion;
}

/** A whole grammar. */
export interface Grammar {
  /** Full name, package included: `com.example.orders`. */
  readonly name: string;
  /** Character encoding named in the header, if any; the text itself is already decoded. */
  readonly encoding: string | null;
  /** Language tag named in the header, if any. */
  readonly locale: string | null;
  readonly rules: readonly Rule[];
}
