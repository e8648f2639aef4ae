export { canonical, digest, digestText } from './canonical.ts';
export { append, caseIdOf, headAfter, makeHeader, openRecord, sealedText } from './chain.ts';
export type { Happening, Head } from './chain.ts';
export { MAX_DEPTH, MAX_LINE, parseJsonLines, toJsonLines } from './json-lines.ts';
export type { JsonLine, JsonLines } from './json-lines.ts';
export { verify, verifyText } from './verify.ts';
export type { Intact, Verdict, Verified, Refuted } from './verify.ts';
export { verifySealed } from './sealed.ts';
export type { CheckSeal } from './sealed.ts';
