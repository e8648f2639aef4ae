/** The case at the chair: its session, its voice and its ear, and what the screen shows of them. */
import type { Call, ChairView, Command, Header, Way } from '../../machines/contract/index.ts';
import { openRecord, type Verified } from '../../machines/record/index.ts';
import { commandFor, grammarFor, type OwnPhrase } from '../../prompts/phrases/index.ts';
import type { Hearing } from '../ear/listener.ts';
import type { ChairState, LastHeard } from '../screens/model.ts';
import { answerOutOfTurn, takeHearing } from '../session/hear-command.ts';
import { makeNod, type Nod } from '../session/nod.ts';
import { Session } from '../session/session.ts';
import {
  type CaseClock,
  type CaseWriter,
  close,
  makeCaseClock,
  systemClocks,
} from '../store/index.ts';
import type { Store } from '../store/index.ts';
import type { Clock } from '../voice/clock.ts';
import type { Voice } from '../voice/voice.ts';
import { becameOf } from './became.ts';
import type { Listening } from './listening.ts';

export interface ChairPorts {
  readonly store: Store;
  readonly clock: Clock;
  readonly voice: Voice;
  readonly listening: Listening;
  /** The practice's own phrases. */
  readonly ownPhrases: () => readonly OwnPhrase[];
  /** The chair has changed; null when no case is at the chair. */
  readonly onChange: (chair: ChairState | null) => void;
  /** Something that everybody must know, a sentence. */
  readonly notice: (sentence: string) => void;
}

/** Where a record stands, so that a session can go on from it. */
type Standing = Pick<Verified, 'header' | 'entries' | 'head'>;

interface AtChair {
  readonly session: Session;
  readonly writer: CaseWriter;
}

const wallNow = (): string => new Date().toISOString();

/** Whether time alone changes what is shown. */
const runsOn = ({ dwells, clocks, seatByMs }: ChairView): boolean =>
  dwells.length > 0 || clocks.length > 0 || seatByMs !== null;

export class Chair {
  readonly #ports: ChairPorts;
  readonly #nod: Nod;
  #at: AtChair | null = null;
  #lastHeard: LastHeard | null = null;
  #lastCall: Call | null = null;
  #typed: readonly string[] = [];
  /** The view that was drawn last, as text; null: none, or one that time alone does not change. */
  #shown: string | null = null;

  constructor(ports: ChairPorts) {
    this.#ports = ports;
    const { clock, voice, listening } = ports;
    const say = (): void => voice.say({ id: 'listening' });
    this.#nod = makeNod(clock, say, () => listening.state.speechSinceMs !== null);
  }

  /** Id of the case at the chair; null when there is none. */
  get caseId(): string | null {
    return this.#at?.writer.caseId ?? null;
  }

  /** Opens a new case. Rejects with a StoreTrouble when its record can't be begun. */
  async open(header: Header): Promise<void> {
    this.leave();
    const writer = await this.#ports.store.openCase(header);
    this.#sit(writer, { header, entries: [], head: openRecord(header) });
  }

  /** Takes a case up again. Rejects with a StoreTrouble when it can't be. */
  async resume(record: Standing & Pick<Verified, 'caseId'>): Promise<void> {
    this.leave();
    const writer = await this.#ports.store.resumeCase(record.caseId);
    this.#sit(writer, record);
  }

  /** Lets the case go; it can be taken up again. */
  leave(): void {
    this.#at?.session.leave();
    this.#at?.writer.release();
    this.#at = null;
    this.#lastHeard = null;
    this.#lastCall = null;
    this.#ports.onChange(null);
  }

  /** A call is being said. */
  saying(call: Call): void {
    this.#lastCall = call;
    this.refresh();
  }

  /** A command from a key or a touch. */
  command(command: Command, via: Way, label: string): void {
    void this.#give(command, via, label);
  }

  /** A typed phrase: the same words as are spoken. */
  typed(text: string): void {
    const words = text.trim().toLowerCase().replaceAll(/\s+/g, ' ');
    if (words === '' || this.#at === null) return;
    this.#typed = [...this.#typed, text];
    const command = typedCommand(text, words, this.#at.session, this.#ports.ownPhrases());
    if (command === null) void this.#outOfTurn(text, words);
    else void this.#give(command, 'typed', text);
  }

  /** A segment of speech, judged by the ear. */
  async heard(hearing: Hearing): Promise<void> {
    this.#nod.spoke();
    if (this.#at === null) return;
    try {
      const taken = await takeHearing(this.#at.session, hearing, this.#ports.ownPhrases());
      if (taken.kind === 'attention') this.#nod.called();
      const became = taken.kind === 'command' ? taken.outcome : becameOf(taken, hearing);
      if (became !== null) this.#show(hearing.phrase ?? '…', 'voice', hearing.score, became);
    } catch (error) {
      this.#failed(error);
    }
  }

  /**
   * Draws the chair as it is now if time alone has changed it: the dwells run on by the clock. True
   * while it will change it again.
   */
  tick(): boolean {
    if (this.#at === null || this.#shown === null) return false;
    if (JSON.stringify(this.#at.session.view) !== this.#shown) this.refresh();
    return this.#shown !== null;
  }

  /** Draws the chair as it is now. */
  refresh(): void {
    if (this.#at === null) return;
    const { session } = this.#at;
    const { view } = session;
    this.#shown = runsOn(view) ? JSON.stringify(view) : null;
    this.#ports.onChange({
      view,
      live: session.live,
      lastHeard: this.#lastHeard,
      lastCall: this.#lastCall,
      typedHistory: this.#typed,
    });
  }

  /** Typed words that mean nothing now: what they would mean at another moment is told as it is by voice. */
  async #outOfTurn(text: string, words: string): Promise<void> {
    if (this.#at === null) return;
    const command = commandFor(words, undefined, this.#ports.ownPhrases());
    if (command === null) return this.#show(text, 'typed', null, 'not-understood');
    try {
      const refused = await answerOutOfTurn(this.#at.session, command, { via: 'typed' });
      this.#show(text, 'typed', null, refused ?? 'out-of-turn');
    } catch (error) {
      this.#failed(error);
    }
  }

  async #give(command: Command, via: Way, label: string): Promise<void> {
    if (this.#at === null) return;
    try {
      const outcome = await this.#at.session.give(command, { via });
      this.#show(label, via, null, outcome.kind);
    } catch (error) {
      this.#failed(error);
    }
  }

  #sit(writer: CaseWriter, record: Standing): void {
    const { header, entries } = record;
    const last = entries.at(-1)?.stamp ?? null;
    const time = makeCaseClock(systemClocks, last, header.opened);
    if (time.notice !== null) this.#ports.notice(time.notice);
    const { store } = this.#ports;
    const ports = {
      keeper: writer,
      time,
      say: (calls: readonly Call[]) => {
        for (const call of calls) this.#ports.voice.say(call);
      },
      hush: () => this.#ports.voice.hush(),
      schedule: (calls: Parameters<SessionSchedule>[0]) => this.#schedule(calls, time),
      onChange: (session: Session) => this.#changed(session),
      seal: async (head: Parameters<typeof close>[1]) =>
        close(await store.signingKeys(), head, wallNow()),
      who: header.plan.team === 'solo' ? ('dentist' as const) : ('assistant' as const),
    };
    this.#typed = [];
    const session =
      entries.length === 0
        ? Session.open(header, ports, record.head)
        : Session.resume(record, ports);
    this.#at = { session, writer };
    this.#changed(session);
  }

  /** Case times as the voice's clock tells them: both run on the page's monotonic clock. */
  #schedule(calls: Parameters<SessionSchedule>[0], time: CaseClock): void {
    const shift = this.#ports.clock.now() - time.now().at;
    this.#ports.voice.schedule(calls.map(({ call, at }) => ({ call, dueMs: at + shift })));
  }

  #changed(session: Session): void {
    const { listening, ownPhrases } = this.#ports;
    listening.setPhrases(grammarFor(session.live, session.teeth, ownPhrases()));
    this.refresh();
  }

  #show(words: string, via: Way, score: number | null, became: LastHeard['became']): void {
    this.#lastHeard = { words, via, score, became };
    this.refresh();
  }

  #failed(error: unknown): void {
    this.#ports.notice(error instanceof Error ? error.message : String(error));
  }
}

type SessionSchedule = Parameters<typeof Session.open>[1]['schedule'];

/** Notes are free text, so they can only be typed. */
const NOTE = /^note(?: that)?[: ]+(?<text>\S.*)$/is;

function typedCommand(
  text: string,
  words: string,
  session: Session,
  own: readonly OwnPhrase[],
): Command | null {
  const note = NOTE.exec(text.trim())?.groups?.['text'];
  if (note !== undefined) return { type: 'note', text: note.slice(0, 500) };
  return commandFor(words, session.live, own);
}
