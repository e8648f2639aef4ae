/** Record files as a terminal reads them: piece by piece, summed by the platform. */
import { hash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';
import { withMeantSteps } from '../../machines/conduct/index.ts';
import { verifySealed, verifyText, type Sum, type Verdict } from '../../machines/record/index.ts';
import { checkSignature } from '../store/signing.ts';

const PIECE_BYTES = 64 * 1024;

/** Node's own SHA-256: several times as fast as the one in `machines`, and the same. */
export const platformSum: Sum = (text) => hash('sha256', text);

/**
 * A file's bytes, piece by piece; the next piece takes the place of the one before. Nothing is
 * read before it is asked for, and the file is closed when nobody asks any more.
 * @throws Error of the file system (`ENOENT`, `EISDIR`, `EACCES`).
 */
export function* piecesOf(path: string): Generator<Uint8Array> {
  const file = openSync(path, 'r');
  try {
    const buffer = new Uint8Array(PIECE_BYTES);
    for (let got = readSync(file, buffer); got > 0; got = readSync(file, buffer))
      yield buffer.subarray(0, got);
  } finally {
    closeSync(file);
  }
}

/**
 * Verifies a record file without its seal's signature, within the limits of `parseJsonLines`: a
 * file of any size costs no more than they allow.
 * @throws Error of the file system, as {@link piecesOf}.
 */
export function verifyFile(path: string): Verdict {
  return completed(verifyText(piecesOf(path), undefined, platformSum));
}

/** {@link verifyFile} with its seal's signature. */
export async function verifySealedFile(path: string): Promise<Verdict> {
  return completed(await verifySealed(piecesOf(path), checkSignature, undefined, platformSum));
}

/** With what older versions did not write down. */
function completed(verdict: Verdict): Verdict {
  return verdict.ok ? { ...verdict, entries: withMeantSteps(verdict) } : verdict;
}
