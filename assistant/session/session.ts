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
  CallId,
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
import {
  append,
  type Head,
  headAfter,
  openRecord,
  type Verified,
} from '../../machines/record/index.ts';

/** Where entries go; acknowledged when kept for good. */
export interface EntryKeeper {
  append(line: Entry | Closing): Promise<void>;
}

/** Case time and the clocks of a stamp. */
export interface TimeSource {
  now(): { readonly at: number; readonly wall: string; readonly mono: number };
}

export interface SessionPorts {
  readonly keeper: EntryKeeper;
  readonly time: TimeSource;
  /** Says calls now, in order. */
  readonly say: (calls: readonly Call[]) => void;
  /** A command was taken: what was being said of steps is no longer news. */
  readonly hush: () => void;
  /** Says these at their case times, in place of those set before. */
  readonly schedule: (calls: readonly DueCall[]) => void;
  /** The state has changed: draw it, and hold the ear to what is live now. */
  readonly onChange: (session: Session) => void;
  /** Makes the closing line for a record that ends at `head`. */
  readonly seal: (head: Head) => Promise<Closing>;
  /** Who the commands of a way in count as given by. */
  readonly who: Role;
}

/** Timed calls that say how long is left: missed, they are of no use any more. */
const PASSING: readonly CallId[] = ['left', 'seat-by', 'hold-until', 'good-for'];

/** How a command came. */
export interface Given {
  readonly via: Way;
  readonly heard?: Stamp['heard'];
}

export class Session {
  readonly header: Header;
  readonly #ports: SessionPorts;
  #state: CaseState;
  #head: Head;
  #queue: Promise<unknown> = Promise.resolve();
  /** Case time at which this session began: timed calls before it are not its to say. */
  readonly #since: number;
  #over = false;

  private constructor(header: Header, state: CaseState, head: Head, ports: SessionPorts) {
    this.header = header;
    this.#state = state;
    this.#head = head;
    this.#ports = ports;
    this.#since = ports.time.now().at;
  }

  /** Starts a case whose header is already kept. */
  static open(header: Header, ports: SessionPorts, head: Head = openRecord(header)): Session {
    const session = new Session(header, initialState(header.case, header.plan), head, ports);
    session.#begin(false);
    return session;
  }

  /** Takes a case up again from its record, at the second it really is; `head` is the record's as it was written. */
  static resume(
    { header, entries, head }: Pick<Verified, 'header' | 'entries' | 'head'>,
    ports: SessionPorts,
  ): Session {
    const state = replay(initialState(header.case, header.plan), entries);
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

  /**
   * Takes a command that is no turn of its own: refused, it is written down and said why, as any other;
   * what could be carried out is not, and null is given.
   */
  turnDown(command: Command, given: Given): Promise<Outcome | null> {
    const done = this.#queue.then(async () => {
      const { outcome } = advance(this.#state, command, this.#stamp(given));
      return outcome.kind === 'refused' ? this.#take(command, given) : null;
    });
    this.#queue = done.catch(() => null);
    return done;
  }

  /** Lets go: no timed call of this session is said any more. */
  leave(): void {
    this.#ports.schedule([]);
  }

  #begin(again: boolean): void {
    const { state, calls } = opening(this.#state, again);
    this.#state = state;
    this.#ports.say(calls);
    if (again) this.#catchUp();
    this.#schedule();
    this.#ports.onChange(this);
  }

  #stamp({ via, heard = null }: Given): Stamp {
    const { at, wall, mono } = this.#ports.time.now();
    return { at: Math.max(at, this.#head.at), wall, mono, who: this.#ports.who, via, heard };
  }

  async #take(command: Command, given: Given): Promise<Outcome> {
    const stamp = this.#stamp(given);
    const { state, outcome, tooth, step, calls } = advance(this.#state, command, stamp);
    const entry = append(this.#head, { stamp, tooth, step, command, outcome });
    await this.#ports.keeper.append(entry);
    this.#head = headAfter(entry);
    this.#state = state;
    if (calls.length > 0) {
      this.#ports.hush();
      this.#ports.say(calls);
    }
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

  /** What came due while nobody was there: the last word on each dwell is still worth saying. */
  #catchUp(): void {
    const last = new Map<string, DueCall>();
    for (const due of dueCalls(this.#state)) {
      const subject = 'step' in due.call ? due.call.step : due.call.id;
      const lasting = !PASSING.includes(due.call.id);
      const missed = due.at > this.#head.at && due.at <= this.#since;
      if (lasting && missed) last.set(`${due.tooth} ${subject ?? ''}`, due);
    }
    this.#ports.say([...last.values()].map(({ call }) => call));
  }

  #schedule(): void {
    this.#ports.schedule(dueCalls(this.#state).filter(({ at }) => at > this.#since));
  }
}
