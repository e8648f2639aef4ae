import { openElsewhere } from './store.ts';

/** The page before this one may still be going down when a case is taken up again. */
const WAIT_MS = 2000;

/**
 * Holds the Web Lock of a case in a database; the browser frees it when the tab dies. Returns its
 * release.
 * @throws StoreTrouble 'elsewhere' when it is still held after a short wait.
 */
export function lockCase(
  locks: LockManager,
  database: string,
  caseId: string,
): Promise<() => void> {
  return new Promise((resolve, reject) => {
    locks
      .request(
        `${database} case ${caseId}`,
        { signal: AbortSignal.timeout(WAIT_MS) },
        () => new Promise<void>((release) => resolve(release)),
      )
      .catch((error: unknown) => {
        const timedOut = error instanceof DOMException && error.name === 'TimeoutError';
        reject(timedOut ? openElsewhere() : error);
      });
  });
}
