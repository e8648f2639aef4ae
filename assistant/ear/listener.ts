/**
 * Segments in, what they mean out: attention, grammar and recogniser together, one segment at a
 * time. The same for the live ear and for a sound file; times are ms on the caller's clock.
 */
import {
  AT_FIRST,
  judge,
  modeFor,
  soundingDuring,
  whenAddressed,
  whileSounding,
  type AttentionOptions,
  type AttentionState,
  type Ignored,
  type Mode,
  type Sounding,
  type SpeechSpan,
  type Verdict,
} from './attention.ts';
import { matches, parseJsgf, WordAutomaton } from '../../prompts/grammar/index.ts';
import { commandFor } from '../../prompts/phrases/index.ts';
import { heldGrammar, readCallSign } from './held-grammar.ts';
import { SAMPLE_RATE, type Heard, type Reading, type Recogniser } from './port.ts';
import { joinSegments, shouldJoin } from './join.ts';
import type { SpeechSegment } from './vad/segmenter.ts';

/** What is longer is talk, not a command, and nobody waits for it, ms. */
const LONGEST_AHEAD_MS = 4_000;

/** What became of one segment of speech. */
export interface Hearing {
  readonly kind: Verdict['kind'];
  /** Words heard; of a command without the call sign; null when nothing was believable. */
  readonly phrase: string | null;
  /** Confidence 0..1, null when nothing was believable. */
  readonly score: number | null;
  /** Where the sound lies, padding left out, ms. */
  readonly startMs: number;
  readonly endMs: number;
  /** Time the recogniser took, ms. */
  readonly decodeMs: number;
  /** True for a command that is sure. */
  readonly accepted: boolean;
  /** False for a command heard with middling confidence: it is asked back before it changes anything. */
  readonly sure: boolean;
  /** Why nothing was done, null when something was. */
  readonly why: Ignored | 'too late' | null;
}

type CommandVerdict = Extract<Verdict, { kind: 'command' }>;

/** A segment as it is understood. */
interface Understood {
  /** How attention stands after it. */
  readonly state: AttentionState;
  /** What was said, whether or not it means anything now. */
  readonly said: Verdict;
  readonly reading: Reading | null;
  readonly verdict: Verdict;
}

interface Asked extends Understood {
  readonly said: CommandVerdict;
}

export interface ListenerOptions {
  readonly recogniser: Recogniser;
  readonly attention: AttentionOptions;
  /** JSGF text whose rule `<phrase>` is what may be said now. */
  readonly phrases: string;
  /** Monotonic ms, for `decodeMs` and lateness only. */
  readonly now: () => number;
  /** A command understood later than this after its segment came is not obeyed; stop is. */
  readonly lateMs: number;
}

export class Listener {
  readonly #recogniser: Recogniser;
  readonly #now: () => number;
  readonly #lateMs: number;
  #attention: AttentionOptions;
  #phrases: string;
  #state: AttentionState = AT_FIRST;
  #queue: Promise<unknown> = Promise.resolve();
  /** Segments that are being heard or wait for it. */
  #hearing = 0;
  /** The last segment, joined with those before it, when nothing or the bare call sign was heard in it. */
  #unheard: SpeechSegment | null = null;
  #loaded: string | null = null;
  /** The phrases that were made ready last. */
  #expected: string | null = null;
  readonly #grammars = new Map<string, string>();
  /** The phrases of now, ready to be asked whether one is among them. */
  #live: { readonly phrases: string; readonly said: WordAutomaton } | null = null;

  constructor(options: ListenerOptions) {
    this.#recogniser = options.recogniser;
    this.#attention = options.attention;
    this.setCallSign(options.attention.callSign);
    this.#phrases = options.phrases;
    this.#now = options.now;
    this.#lateMs = options.lateMs;
  }

  /** Sets what may be said from the next segment on. */
  setPhrases(jsgf: string): void {
    this.#phrases = jsgf;
  }

  /**
   * Sets the call sign; null: none is needed.
   * @throws CallSignError when it cannot be used.
   */
  setCallSign(word: string | null): void {
    const callSign = word === null ? null : readCallSign(word, this.#attention.stopPhrases);
    this.#attention = { ...this.#attention, callSign };
  }

  /** Tells that a call sounds, or when it ended. */
  sounding(call: Sounding): void {
    this.#state = whileSounding(this.#state, call, this.#attention);
  }

  /** Whether a call, or its echo, may be in what lies between. */
  soundsDuring(span: SpeechSpan): boolean {
    return soundingDuring(this.#state, span, this.#attention).length > 0;
  }

  /** Tells that Seatcall was addressed by other means than the recogniser. */
  addressed(atMs: number): void {
    this.#state = whenAddressed(this.#state, atMs, this.#attention);
  }

  /**
   * Makes the recogniser ready for the phrases of now. When the promise is kept it hears; then it is
   * warmed on half a second of quiet, asleep as it begins and awake, so that the first command is
   * heard as fast as the tenth.
   * Rejects with the recogniser's error.
   */
  prepare(): Promise<void> {
    const modes = this.#modes();
    const [first = 'free'] = modes;
    const ready = this.#enqueue(() => this.#load(this.#grammarFor(first)));
    // Should one of these fail, the first segment fails alike and is told of.
    for (const mode of modes) this.#enqueue(() => this.#warm(mode)).catch(() => null);
    return ready;
  }

  /** Has the recogniser make what may be said now ready before it is said: the next segment need not wait. */
  expect(): void {
    if (this.#expected === this.#phrases) return;
    this.#expected = this.#phrases;
    for (const mode of this.#modes())
      this.#enqueue(() => this.#load(this.#grammarFor(mode))).catch(() => null);
  }

  #modes(): readonly Mode[] {
    return this.#attention.callSign === null ? ['free'] : ['addressed', 'open'];
  }

  async #warm(mode: Mode): Promise<void> {
    await this.#load(this.#grammarFor(mode));
    await this.#recogniser.hear(new Float32Array(SAMPLE_RATE / 2));
  }

  /** Does one thing after those before it, whether or not they went well. */
  #enqueue<Result>(act: () => Promise<Result>): Promise<Result> {
    const done = this.#queue.then(act);
    this.#queue = done.catch(() => null);
    return done;
  }

  /**
   * Hears a segment after those before it.
   * Rejects with the recogniser's error; later segments are heard all the same.
   */
  async hear(segment: SpeechSegment): Promise<Hearing> {
    const cameMs = this.#now();
    this.#hearing++;
    try {
      return await this.#enqueue(() => this.#hear(segment, cameMs));
    } finally {
      this.#hearing--;
    }
  }

  /**
   * Has the recogniser begin on a segment that comes if nobody goes on. Nothing becomes of it but that
   * {@link hear} is sooner; it is left alone where something else would have to wait for it.
   */
  hearAhead(segment: SpeechSegment): void {
    if (this.#hearing > 0 || segment.endMs - segment.startMs > LONGEST_AHEAD_MS) return;
    // Should it fail, hearing the segment fails alike and is told of.
    this.#enqueue(async () => {
      await this.#loadFor(segment);
      await this.#recogniser.hearAhead?.(segment.pcm);
    }).catch(() => null);
  }

  async #hear(segment: SpeechSegment, cameMs: number): Promise<Hearing> {
    const beganMs = this.#now();
    const before = this.#unheard;
    this.#unheard = null;
    let span = segment;
    let unheard = segment;
    let heard = await this.#decodeBoth(segment);
    // A pause inside a command cuts it in two: "not ... done" must not be heard as "done".
    if (before && shouldJoin(before, segment)) {
      const joined = joinSegments(before, segment);
      const both = await this.#decode(joined);
      unheard = joined;
      if (both && isOfSeveralWords(both) && goesBefore(both, heard)) {
        heard = both;
        span = joined;
      }
    }
    const { state, said, reading, verdict } = this.#understand(span, heard);
    // So may a pause after the call sign.
    const sure = said.kind === 'command' ? said.sure : (heard?.sure ?? true);
    if (heard === null || !sure || verdict.kind === 'attention' || isOutOfTurn(verdict))
      this.#unheard = unheard;
    const doneMs = this.#now();
    const late =
      said.kind === 'command' &&
      doneMs - cameMs > this.#lateMs &&
      !this.#attention.stopPhrases.includes(said.phrase);
    if (!late) this.#state = state;
    return {
      kind: late ? 'ignored' : verdict.kind,
      phrase: said.kind === 'command' ? said.phrase : (reading?.phrase ?? null),
      score: reading?.score ?? null,
      startMs: span.speechStartMs,
      endMs: span.speechEndMs,
      decodeMs: doneMs - beganMs,
      accepted: verdict.kind === 'command' && sure && !late,
      sure,
      why: late ? 'too late' : verdict.kind === 'ignored' ? verdict.why : null,
    };
  }

  /**
   * What was heard means. A phrase that means nothing now was heard so that it is not taken for one that
   * does; where one that does comes too close to tell, that one is asked back. So is one that counts for
   * the call sign's sake, where another comes as close.
   */
  #understand(span: SpeechSpan, heard: Heard | null): Understood {
    const { state, verdict: said } = judge(this.#state, span, heard, this.#attention);
    if (said.kind !== 'command') return { state, said, reading: heard, verdict: said };
    const close = this.#closeOfNow(span, heard?.others ?? []);
    if (this.#isOfNow(said.phrase)) {
      const isDoubtful =
        heard?.sure === false && close.some(({ said: other }) => !isOneCommand(other, said));
      const verdict: Verdict = isDoubtful ? { ...said, sure: false } : said;
      return { state, said: verdict, reading: heard, verdict };
    }
    const [nearest] = close;
    if (nearest !== undefined) return nearest;
    const why = said.sure ? 'out of turn' : 'unclear';
    return { state, said, reading: heard, verdict: { kind: 'ignored', why } };
  }

  /** Those that mean something now, to be asked back. */
  #closeOfNow(span: SpeechSpan, others: readonly Reading[]): readonly Asked[] {
    return others.flatMap((reading) => {
      const heard = { ...reading, sure: false };
      const { state, verdict } = judge(this.#state, span, heard, this.#attention);
      if (verdict.kind !== 'command' || !this.#isOfNow(verdict.phrase)) return [];
      const said = { ...verdict, sure: false };
      return [{ state, said, reading, verdict: said }];
    });
  }

  #isOfNow(phrase: string): boolean {
    if (this.#attention.stopPhrases.includes(phrase)) return true;
    const phrases = this.#phrases;
    if (this.#live?.phrases !== phrases)
      this.#live = { phrases, said: new WordAutomaton(parseJsgf(phrases)) };
    return matches(this.#live.said, phrase);
  }

  /**
   * What a segment says. Where the call sign may be left out, the phrases' beginnings crowd it out of
   * a search in noise: what is unclear then is held to the call sign as well, and the surer counts.
   */
  async #decodeBoth(segment: SpeechSegment): Promise<Heard | null> {
    const heard = await this.#decode(segment);
    if (heard?.sure === true || this.#modeOf(segment) !== 'open') return heard;
    const again = await this.#decode(segment, 'addressed');
    return (again?.score ?? 0) > (heard?.score ?? 0) ? again : heard;
  }

  async #decode(segment: SpeechSegment, mode = this.#modeOf(segment)): Promise<Heard | null> {
    await this.#loadFor(segment, mode);
    return this.#recogniser.hear(segment.pcm);
  }

  async #loadFor(segment: SpeechSegment, mode = this.#modeOf(segment)): Promise<void> {
    const calls = soundingDuring(this.#state, segment, this.#attention).map(({ text }) => text);
    await this.#load(this.#grammarFor(mode, calls));
  }

  #modeOf(segment: SpeechSegment): Mode {
    return modeFor(this.#state, segment, this.#attention);
  }

  async #load(grammar: string): Promise<void> {
    if (grammar === this.#loaded) return;
    this.#loaded = null;
    await this.#recogniser.load(grammar);
    this.#loaded = grammar;
  }

  #grammarFor(mode: Mode, calls: readonly string[] = []): string {
    const { callSign, stopPhrases } = this.#attention;
    const key = JSON.stringify([mode, callSign, this.#phrases, calls]);
    const known = this.#grammars.get(key);
    if (known !== undefined) return known;
    const grammar = heldGrammar(this.#phrases, mode, callSign, stopPhrases, calls);
    // One entry a state and mode: far fewer than this over a whole case.
    if (this.#grammars.size > 500) this.#grammars.clear();
    this.#grammars.set(key, grammar);
    return grammar;
  }
}

/** Whether two phrases are one command; of the practice's own phrases that is not known here. */
function isOneCommand(one: CommandVerdict, other: CommandVerdict): boolean {
  if (one.phrase === other.phrase) return true;
  const command = commandFor(one.phrase);
  return command !== null && JSON.stringify(command) === JSON.stringify(commandFor(other.phrase));
}

const isOutOfTurn = (verdict: Verdict): boolean =>
  verdict.kind === 'ignored' && verdict.why === 'out of turn';

/**
 * A pause lies between words, not in one: bits of talk put together that come to one word ("Shall ... long
 * enough", to "stop") hold something else.
 */
const isOfSeveralWords = ({ phrase }: Heard): boolean => phrase.includes(' ');

/** True when the joined sound explains the later piece too, or that piece alone said nothing. */
function goesBefore(joined: Heard, alone: Heard | null): boolean {
  if (alone === null) return true;
  return joined.phrase.endsWith(` ${alone.phrase}`) || joined.score > alone.score;
}
