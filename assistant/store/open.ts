import { FallbackStore } from './fallback.ts';
import { openIndexedDb } from './indexed-db.ts';
import type { Store } from './store.ts';
import { StoreTrouble, toTrouble } from './trouble.ts';

/** Long enough for a slow disk; a database that another tab blocks never opens. */
const OPEN_MS = 5000;

function late(): Promise<never> {
  return new Promise((_, reject) => {
    const trouble = new StoreTrouble(
      'unavailable',
      'The storage does not open: an older Seatcall in another tab may hold it. Close that tab.',
    );
    setTimeout(() => reject(trouble), OPEN_MS);
  });
}

/**
 * The app's store: the disk's, with memory behind it. Never rejects: where there is no disk, the
 * app goes on in memory and `warn` is told why, in a sentence for people.
 */
export async function openStore(warn: (trouble: StoreTrouble) => void): Promise<Store> {
  let disk: Store | null = null;
  try {
    disk = await Promise.race([openIndexedDb(), late()]);
    // Asks the browser not to clear records when space runs short; it may say no.
    await navigator.storage.persist().catch(() => false);
  } catch (error) {
    if (disk === null) warn(inMemory(toTrouble(error)));
  }
  return new FallbackStore(disk, warn);
}

function inMemory(trouble: StoreTrouble): StoreTrouble {
  const message = `${trouble.message} Cases are kept only as long as this tab is open: export them before closing it.`;
  return new StoreTrouble(trouble.kind, message, trouble);
}
