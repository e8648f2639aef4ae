/** Record files as a terminal reads them: piece by piece, summed by the platform. */
import { hash } from 'node:crypto';
import { closeSync, openSync, readSync } from 'node:fs';
import { withMeantSteps } from '../../machines/conduct/index.ts';
import {
  type FileInput,
  MAX_FILE_BYTES,
  type Sum,
  type Verdict,
  verifySealed,
  verifyText,
} from '../../machines/record/index.ts';
import { decryptBytes, isEncrypted } from '../store/passphrase.ts';
import { checkSignature } from '../store/signing.ts';
import { NO_PASSPHRASE } from './ask-passphrase.ts';

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

/** A file under a passphrase that was not opened: `message` says why. */
export class Locked extends Error {
  override readonly name = 'Locked';
}

/** All of a file, as far as it can be one that is encrypted. */
function wholeOf(path: string): Uint8Array {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for (const piece of piecesOf(path)) {
    size += piece.length;
    // A byte of a record is four thirds in base64.
    if (size > 1.4 * MAX_FILE_BYTES)
      throw new Locked(`The file is larger than ${MAX_FILE_BYTES / 1024 / 1024} MB of a record.`);
    pieces.push(Uint8Array.from(piece));
  }
  return Buffer.concat(pieces);
}

/** `{"` in base64: no record begins so. */
const LOCKED_BEGIN = Buffer.from('eyJ');

/** Whether a file begins as one under a passphrase does; no more of it is read. */
function beginsLocked(path: string): boolean {
  for (const piece of piecesOf(path)) return Buffer.from(piece.subarray(0, 3)).equals(LOCKED_BEGIN);
  return false;
}

/** @throws Locked when the file is under a passphrase and this is not it. */
async function openedOf(path: string, passphrase: string | null): Promise<FileInput> {
  if (!beginsLocked(path)) return piecesOf(path);
  const bytes = wholeOf(path);
  if (!isEncrypted(bytes)) return bytes;
  if (passphrase === null) throw new Locked(NO_PASSPHRASE);
  const opened = await decryptBytes(bytes, passphrase);
  if (!opened.ok) throw new Locked(opened.message);
  return opened.bytes;
}

/**
 * {@link verifyFile} with its seal's signature; a file under a passphrase is opened with it.
 * @throws Locked when it does not open; Error of the file system.
 */
export async function verifySealedFile(
  path: string,
  passphrase: string | null = null,
): Promise<Verdict> {
  const input = await openedOf(path, passphrase);
  return completed(await verifySealed(input, checkSignature, undefined, platformSum));
}

/** With what older versions did not write down. */
function completed(verdict: Verdict): Verdict {
  if (verdict.ok) return { ...verdict, entries: withMeantSteps(verdict) };
  const { cut } = verdict;
  return cut === null ? verdict : { ...verdict, cut: { ...cut, entries: withMeantSteps(cut) } };
}
