export { canonical, digest, digestText } from './canonical.ts';
export { append, caseIdOf, headAfter, makeHeader, openRecord, sealedText } from './chain.ts';
export type { Head } from './chain.ts';
export { MAX_LINE, parseJsonLines, toJsonLines } from './json-lines.ts';
export { verify, verifyText } from './verify.ts';
export type { Verdict, Verified } from './verify.ts';
export { verifySealed } from './sealed.ts';
