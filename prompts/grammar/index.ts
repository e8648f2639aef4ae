/** JSGF grammars: reading, printing, and the automaton of the sentences one allows. */
export type { Alternative, Expansion, Grammar, Reference, Rule } from './ast.ts';
export { matches, WordAutomaton, type WordState } from './automaton.ts';
export { JsgfError } from './error.ts';
export { parseJsgf } from './parser.ts';
export { printJsgf } from './printer.ts';
export { wordsIn } from './words.ts';
