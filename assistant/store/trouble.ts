/** What kind of trouble the store is in; what can be done about it differs. */
export type TroubleKind =
  /** The disk, or the browser's share of it, is full. */
  | 'full'
  /** The browser gives no storage, or took it away. */
  | 'unavailable'
  /** The case is being written in another tab. */
  | 'elsewhere'
  /** There is such a case already. */
  | 'exists'
  /** The case was deleted here, and its tombstone stands. */
  | 'deleted'
  /** There is no such case. */
  | 'missing'
  /** The line does not follow the last one that is kept. */
  | 'out-of-order'
  /** The record is closed. */
  | 'closed'
  /** Anything else the browser reports. */
  | 'broken';

/** Why the store did not do what it was asked; `message` is a sentence for people. */
export class StoreTrouble extends Error {
  override readonly name = 'StoreTrouble';
  readonly kind: TroubleKind;

  constructor(kind: TroubleKind, message: string, cause?: unknown) {
    super(message, cause === undefined ? {} : { cause });
    this.kind = kind;
  }
}

/** Whether another store could still take what this one did not. */
export function isStorageGone(error: unknown): error is StoreTrouble {
  return (
    error instanceof StoreTrouble &&
    (error.kind === 'full' || error.kind === 'unavailable' || error.kind === 'broken')
  );
}

const BY_NAME: ReadonlyMap<string, readonly [TroubleKind, string]> = new Map([
  [
    'QuotaExceededError',
    ['full', 'The storage is full: nothing more can be kept on this machine.'],
  ],
  ['ConstraintError', ['exists', 'This is kept already, and nothing is ever written over.']],
  ['SecurityError', ['unavailable', 'The browser does not allow storage here.']],
  ['InvalidStateError', ['unavailable', 'The browser has closed the storage.']],
  ['NotFoundError', ['unavailable', 'The storage has gone.']],
  ['VersionError', ['unavailable', 'The storage was made by a newer Seatcall.']],
]);

/** Any failure as a {@link StoreTrouble}; one that is one stays as it is. */
export function toTrouble(error: unknown): StoreTrouble {
  if (error instanceof StoreTrouble) return error;
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  const [kind, message] = BY_NAME.get(name) ?? [
    'broken',
    `The storage failed (${name || 'no reason given'}): nothing was kept.`,
  ];
  return new StoreTrouble(kind, message, error);
}
