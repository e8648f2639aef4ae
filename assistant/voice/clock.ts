/** A monotonic clock that wakes its caller on time; a test makes its own. */
export interface Clock {
  /** Milliseconds since some fixed moment; never goes back. */
  now(): number;
  /** Runs `task` once when `now()` reaches `dueMs` (at once when past). Returns its cancel. */
  at(dueMs: number, task: () => void): () => void;
}
