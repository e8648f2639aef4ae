/**
 * One case under way: the only place where a command becomes an entry. It takes commands from
 * every way in, keeps each before anything comes of it, says what is to be said and wakes for
 * what is due. The outside world comes in by ports, so a sound file and a browser run the same.
 */
import {
  advance,
  type CaseState,
  type DueCall,
  dueCalls,
  initialState,
  live,
  opening,
  replay,
  view,
} from '../../machines/conduct/index.ts';
import type {
  Call,
  ChairView,
  Closing,
  Command,
  Entry,
  Header,
  Live,
  Outcome,
  Role,
  Stamp,
  Way,
} from '../../machines/contract/index.ts';
import { append, type Head, headAfter, openRecord } from '../../machines/record/index.ts';

/** Where entries go; acknowledged when kept for good. */
export interface EntryKeeper {
  append(line: Entry | Closing): Promise<void>;
}

/** Case time and the clocks of a stamp. */
export interface TimeSource {
  now(): { readonly at: number; readonly wall: string; readonly mono: number };
}

/** Wakes the session at a case time. */
export interface Waker {
  /** Runs `task` once at case time `at` (ms), at once when past; returns its cancel. */
  wakeAt(at: number, task: () => void): () => void;
}

export interface SessionPorts {
  readonly keeper: EntryKeeper;
  readonly time: TimeSource;
  readonly waker: Waker;
  /** Says calls in order; `dueAt` is the case time a timed call was due at. */
  readonly say: (calls: readonly Call[], dueAt: number | null) => void;
  /** The state has changed: draw it, and hold the ear to what is live now. */
  readonly onChange: (session: Session) => void;
  /** Makes the closing line for a record that ends at `head`. */
  readonly seal: (head: Head) => Promise<Closing>;
  /** Who the commands of a way in count as given by. */
  readonly who: Role;
}

/** How a command came. */
export interface Given {
  readonly via: Way;
  readonly heard?: Stamp['heard'];
}

/** A dwell mark this long past, in ms, is not worth saying any more when a case is taken up again. */
const STALE_MS = 3_000;

export class Session {
  readonly header: Header;
  readonly #ports: SessionPorts;
  #state: CaseState;
  #head: Head;
  #queue: Promise<unknown> = Promise.resolve();
  /** Case time up to which timed calls were said. */
  #calledTo: number;
  #cancelWake: () => void = () => undefined;
  #over = false;

  private constructor(header: Header, state: CaseState, head: Head, ports: SessionPorts) {
    this.header = header;
    this.#state = state;
    this.#head = head;
    this.#ports = ports;
    this.#calledTo = head.at;
  }

  /** Starts a case whose header is already kept. */
  static open(header: Header, ports: SessionPorts): Session {
    const session = new Session(
      header,
      initialState(header.case, header.plan),
      openRecord(header),
      ports,
    );
    session.#begin(false);
    return session;
  }

  /** Takes a case up again from its record, at the second it really is. */
  static resume(header: Header, entries: readonly Entry[], ports: SessionPorts): Session {
    const state = replay(initialState(header.case, header.plan), entries);
    const last = entries.at(-1);
    const head = last === undefined ? openRecord(header) : headAfter(last);
    const session = new Session(header, state, head, ports);
    session.#begin(true);
    return session;
  }

  get view(): ChairView {
    return view(this.#state, this.#ports.time.now().at);
  }

  get live(): Live {
    return live(this.#state);
  }

  get teeth(): readonly string[] {
    return this.header.plan.units.map(({ tooth }) => tooth);
  }

  /** Number of the last entry. */
  get entries(): number {
    return this.#head.n;
  }

  get closed(): boolean {
    return this.#over;
  }

  /**
   * Carries a command through: state, entry, calls, in this order of commands given. Rejects with
   * the keeper's error when the entry could not be kept; then nothing has happened.
   */
  give(command: Command, given: Given): Promise<Outcome> {
    const done = this.#queue.then(() => this.#take(command, given));
    this.#queue = done.catch(() => null);
    return done;
  }

  /** Lets go: no timer of this session fires any more. */
  leave(): void {
    this.#cancelWake();
  }

  #begin(again: boolean): void {
    const { state, calls } = opening(this.#state, again);
    this.#state = state;
    this.#ports.say(calls, null);
    this.#catchUp();
    this.#schedule();
    this.#ports.onChange(this);
  }

  async #take(command: Command, { via, heard = null }: Given): Promise<Outcome> {
    const { at, wall, mono } = this.#ports.time.now();
    const stamp: Stamp = {
      at: Math.max(at, this.#head.at),
      wall,
      mono,
      who: this.#ports.who,
      via,
      heard,
    };
    const { state, outcome, tooth, calls } = advance(this.#state, command, stamp);
    const entry = append(this.#head, { stamp, tooth, command, outcome });
    await this.#ports.keeper.append(entry);
    this.#head = headAfter(entry);
    this.#state = state;
    if (calls.length > 0) this.#ports.say(calls, null);
    this.#schedule();
    if (command.type === 'close' && outcome.kind === 'accepted') await this.#close();
    this.#ports.onChange(this);
    return outcome;
  }

  async #close(): Promise<void> {
    this.leave();
    this.#over = true;
    await this.#ports.keeper.append(await this.#ports.seal(this.#head));
  }

  /** What came due while nobody was there: only the last word on each dwell is still worth saying. */
  #catchUp(): void {
    const now = this.#ports.time.now().at;
    const missed = dueCalls(this.#state).filter(({ at }) => at > this.#calledTo && at <= now);
    const last = new Map<string, DueCall>();
    for (const due of missed) {
      const step = 'step' in due.call ? due.call.step : due.call.id;
      last.set(`${due.tooth} ${step ?? ''}`, due);
    }
    for (const due of last.values()) {
      const lasting = due.call.id !== 'left' && due.call.id !== 'seat-by';
      if (lasting || now - due.at < STALE_MS) this.#ports.say([due.call], now);
    }
    this.#calledTo = now;
  }

  #schedule(): void {
    this.#cancelWake();
    const next = dueCalls(this.#state).find(({ at }) => at > this.#calledTo);
    this.#cancelWake =
      next === undefined ? () => undefined : this.#ports.waker.wakeAt(next.at, () => this.#due());
  }

  #due(): void {
    const now = this.#ports.time.now().at;
    const due = dueCalls(this.#state).filter(({ at }) => at > this.#calledTo && at <= now);
    this.#calledTo = Math.max(this.#calledTo, due.at(-1)?.at ?? this.#calledTo);
    for (const { call, at } of due) this.#ports.say([call], at);
    this.#schedule();
    this.#ports.onChange(this);
  }
}
