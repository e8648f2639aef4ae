/** How a page learns that a worker is gone, whatever it died of: the lock it held is free. */

/** Worker's side: holds the lock until the worker dies. */
export function holdLock(name: string): void {
  void navigator.locks.request(name, () => new Promise(() => {}));
}

/**
 * Page's side: waits until the worker holds the lock, then until it no longer does.
 * `signal` ends the wait.
 */
export async function watchLock(
  name: string,
  signal: AbortSignal,
  onFree: () => void,
): Promise<void> {
  for (;;) {
    const { held = [] } = await navigator.locks.query();
    if (signal.aborted) return;
    if (held.some((lock) => lock.name === name)) break;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  await navigator.locks.request(name, { signal }, onFree);
}
