export { canonical, digest, digestText } from './canonical.ts';
export { append, caseIdOf, headAfter, makeHeader, openRecord, sealedText } from './chain.ts';
export type { Head } from './chain.ts';
export { MAX_FILE_BYTES, MAX_LINES, parseJsonLines, toJsonLines } from './json-lines.ts';
export type { FileInput } from './json-lines.ts';
export { MAX_LINE, parseJson } from './json-text.ts';
export { verify, verifyText } from './verify.ts';
export type { Cut, Refuted, Sum, Verdict, Verified, Written } from './verify.ts';
export { verifySealed } from './sealed.ts';
export {
  epitaphText,
  follows,
  isOf,
  NO_TOMBSTONE,
  referenceDigest,
  Tombstone,
  verifyLedger,
} from './tombstone.ts';
export type { DeletionReason, Epitaph, LedgerFault } from './tombstone.ts';
