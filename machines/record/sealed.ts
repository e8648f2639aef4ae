import type { Checkpoint, Closing } from '../contract/index.ts';
import type { Head } from './chain.ts';
import type { FileInput } from './json-lines.ts';
import { verifyText } from './verify.ts';
import type { Refuted, Sum, Suspect, Verdict } from './verify.ts';

/** Whether a seal's signature is that of its key over `sealedText`; ECDSA lives outside `machines`. */
export type CheckSeal = (seal: Closing | Checkpoint) => Promise<boolean>;

/**
 * {@link verifyText} and the seal's signature, if there is a seal. Where the seal and what it
 * seals disagree, a good signature clears the seal. Never throws unless `check` does.
 */
export async function verifySealed(
  input: FileInput,
  check: CheckSeal,
  expected?: Pick<Head, 'n' | 'digest'>,
  sum?: Sum,
): Promise<Verdict> {
  const verdict = verifyText(input, expected, sum);
  if (!verdict.ok)
    return verdict.suspect === null ? verdict : settle(verdict, verdict.suspect, check);
  const { header, entries, head } = verdict;
  const seal = verdict.closing ?? verdict.checkpoint;
  if (seal === null || (await check(seal))) return verdict;
  return {
    ok: false,
    line: seal.n + 1,
    entry: null,
    message: `The ${seal.kind} was changed: its signature does not fit.`,
    intact: { header, entries, head },
    cut: null,
    suspect: null,
  };
}

async function settle(
  refuted: Refuted,
  { seal, line }: Suspect,
  check: CheckSeal,
): Promise<Refuted> {
  if (!(await check(seal))) {
    const message = `The ${seal.kind} was changed: its signature does not fit.`;
    return { ...refuted, line, entry: null, message, suspect: null };
  }
  if (refuted.line !== line) return { ...refuted, suspect: null };
  const due = line - 1;
  if (seal.n < due) {
    const older = `The ${seal.kind} was signed after entry ${seal.n - 1} and stands after entry ${due - 1}: it is an older one, or entries were put in since.`;
    return { ...refuted, entry: null, message: older, suspect: null };
  }
  const message = `Entry ${due} is missing: the ${seal.kind} was signed after entry ${seal.n - 1}.`;
  return { ...refuted, entry: due, message, suspect: null };
}
