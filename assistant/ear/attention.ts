/**
 * Who is being spoken to: decides what a segment is held to and what a heard phrase means.
 * Pure; all times are ms on one clock, whichever the caller uses.
 */
import { isEveryday, PHRASES } from '../../prompts/phrases/index.ts';
import type { Heard } from './port.ts';

/** A call while it sounds. */
export interface Sounding {
  readonly text: string;
  readonly fromMs: number;
  /** Infinity while its end is not known; tell it again with the end. */
  readonly untilMs: number;
  /** True when the call asks something: the answer needs no call sign. */
  readonly question?: boolean;
}

export interface AttentionOptions {
  /** The word that addresses Seatcall, lower case; null: every phrase counts as addressed. */
  readonly callSign: string | null;
  /** How long no call sign is needed after one, after a command or after a question, ms. */
  readonly followUpMs: number;
  /** How long after a call its sound may still reach the microphone, ms. */
  readonly echoTailMs: number;
  /** How late the loudspeaker and the air are: speech of a call begins no later than this after its end, ms. */
  readonly echoLagMs: number;
  /** Phrases that work without the call sign at any time. */
  readonly stopPhrases: readonly string[];
  /**
   * After the call sign a phrase counts for sure from this confidence on: what noise leaves of a word and
   * its phrase together is hardly chance, and a phrase that means nothing now is heard as itself. Not an
   * answer. 0..1
   */
  readonly addressedFrom: number;
  /** A stop phrase outside the window, without the call sign, counts from this confidence on. 0..1 */
  readonly stopFrom: number;
  /**
   * Where no call sign is in use, everything said in the room is held to the phrases: outside the
   * window after a command or a question they count from this confidence on; stops have their own. Those
   * that people say to each other all day ("that's it") are asked back, unless a call has just ended. 0..1
   */
  readonly freeFrom: number;
  /**
   * Phrases that answer a question: what waits for them is what can't be taken back. After the call sign
   * they take as much as elsewhere; where none is in use they count in the window alone, for "yes" is
   * the commonest word of a talk.
   */
  readonly answerPhrases: readonly string[];
}

const answers = PHRASES.filter(({ commands: [first] }) => ['confirm', 'deny'].includes(first.type));

export const ATTENTION = {
  callSign: 'lantern',
  followUpMs: 8_000,
  echoTailMs: 350,
  echoLagMs: 120,
  stopPhrases: ['stop', 'stop stop', 'stop everything'],
  addressedFrom: 0.25,
  stopFrom: 0.65,
  freeFrom: 0.7,
  answerPhrases: answers.flatMap(({ texts }) => texts),
} as const satisfies AttentionOptions;

/** Plain data; {@link AT_FIRST} begins. */
export interface AttentionState {
  /** No call sign needed for speech that begins up to here. */
  readonly openUntilMs: number;
  readonly sounding: readonly Sounding[];
}

export const AT_FIRST: AttentionState = { openUntilMs: -Infinity, sounding: [] };

/** Where speech begins and ends, without padding. */
export interface SpeechSpan {
  readonly speechStartMs: number;
  readonly speechEndMs: number;
}

/**
 * What a segment is held to: `addressed` needs the call sign (or is a stop phrase); `open` may
 * leave it out; `guarded` is `addressed` because one of our own calls sounds; `free`: no call
 * sign is in use.
 */
export type Mode = 'addressed' | 'open' | 'guarded' | 'free' | 'guardedFree';

export type Verdict =
  /** `sure`: not to be asked back. */
  | { readonly kind: 'command'; readonly phrase: string; readonly sure: boolean }
  | { readonly kind: 'attention' }
  | { readonly kind: 'ignored'; readonly why: Ignored };

/** Why nothing was done about a segment. */
export type Ignored =
  | 'nothing in the grammar'
  | 'unclear'
  | 'own voice'
  | 'not addressed'
  | 'out of turn';

/** A call begins, or its end has become known. Calls long past are forgotten. */
export function whileSounding(
  state: AttentionState,
  call: Sounding,
  options: AttentionOptions,
): AttentionState {
  const others = state.sounding.filter(
    (other) =>
      !(other.text === call.text && other.fromMs === call.fromMs) &&
      // A segment reaches back at most its longest length, with room to spare.
      other.untilMs > call.fromMs - 60_000,
  );
  const asked = call.question === true && Number.isFinite(call.untilMs);
  const openUntilMs = asked
    ? Math.max(state.openUntilMs, call.untilMs + options.followUpMs)
    : state.openUntilMs;
  return { openUntilMs, sounding: [...others, call] };
}

/** Seatcall was addressed at `atMs` by other means, such as a wake-word engine. */
export function whenAddressed(
  state: AttentionState,
  atMs: number,
  options: AttentionOptions,
): AttentionState {
  return { ...state, openUntilMs: Math.max(state.openUntilMs, atMs + options.followUpMs) };
}

/** What a segment is to be held to. */
export function modeFor(state: AttentionState, span: SpeechSpan, options: AttentionOptions): Mode {
  const guarded = state.sounding.some((call) => mayBeEchoOf(call, span, options));
  if (options.callSign === null) return guarded ? 'guardedFree' : 'free';
  if (guarded) return 'guarded';
  return span.speechStartMs <= state.openUntilMs ? 'open' : 'addressed';
}

/** What was heard in a segment means, and how attention stands after it. */
export function judge(
  state: AttentionState,
  span: SpeechSpan,
  heard: Heard | null,
  options: AttentionOptions,
): { readonly state: AttentionState; readonly verdict: Verdict } {
  const ignored = (why: Ignored): ReturnType<typeof judge> => ({
    state,
    verdict: { kind: 'ignored', why },
  });
  if (heard === null) return ignored('nothing in the grammar');
  const said = wordsOf(heard.phrase).join(' ');
  const { addressed, phrase } = splitCallSign(said, options.callSign);
  const stops = options.stopPhrases.includes(phrase);
  if (soundingDuring(state, span, options).some(({ text }) => holdsWords(text, said)))
    return ignored('own voice');
  const mode = modeFor(state, span, options);
  const isOrder = addressed && phrase !== '';
  const isTalk = !isOrder && span.speechStartMs > state.openUntilMs;
  const isAnswer = options.answerPhrases.includes(phrase);
  if (isTalk && options.callSign === null && isAnswer) return ignored('not addressed');
  // Outside the window it takes more; after the call sign, less.
  const inTalk = stops ? options.stopFrom : options.freeFrom;
  const isClear = heard.sure && (!isTalk || heard.score >= inTalk);
  const mayBeTalk =
    isTalk && !stops && mode === 'free' && isEveryday(phrase) && !answersCall(state, span, options);
  const sure =
    (isClear && !mayBeTalk) || (isOrder && !isAnswer && heard.score >= options.addressedFrom);
  // Talk in the room now and then resembles a phrase; it is no reason to ask anybody anything.
  if (!isClear && !sure && !isOrder && mode !== 'open') return ignored('unclear');
  const next = whenAddressed(state, span.speechEndMs, options);
  if (addressed && phrase === '')
    return heard.sure ? { state: next, verdict: { kind: 'attention' } } : ignored('unclear');
  const counts = addressed || mode === 'open' || mode === 'free' || stops;
  if (!counts) return ignored('not addressed');
  // Asked back, the question opens the window; if it means nothing now, talk has opened none.
  return { state: mayBeTalk ? state : next, verdict: { kind: 'command', phrase, sure } };
}

/**
 * True when speech begins while the call sounds: it may be the call itself. What began before the
 * call did was begun by a person, and is not made to wait for it.
 */
function mayBeEchoOf(
  { fromMs, untilMs }: Sounding,
  { speechStartMs }: SpeechSpan,
  { echoLagMs }: AttentionOptions,
): boolean {
  return speechStartMs >= fromMs && speechStartMs <= untilMs + echoLagMs;
}

/** Calls that sound, or whose echo may, while somebody speaks. */
export function soundingDuring(
  state: AttentionState,
  span: SpeechSpan,
  options: AttentionOptions,
): readonly Sounding[] {
  return state.sounding.filter(
    (call) =>
      span.speechStartMs <= call.untilMs + options.echoTailMs && span.speechEndMs >= call.fromMs,
  );
}

/** Whether a call has just ended: what is said then is probably said to it. */
const answersCall = (
  state: AttentionState,
  { speechStartMs }: SpeechSpan,
  { followUpMs }: AttentionOptions,
): boolean =>
  state.sounding.some(
    ({ untilMs }) => speechStartMs > untilMs && speechStartMs <= untilMs + followUpMs,
  );

/** Lower-case words: letters, digits, inner apostrophes and hyphens. */
export function wordsOf(text: string): readonly string[] {
  return (
    text
      .toLowerCase()
      .replaceAll('’', "'")
      .match(/[\p{L}\p{N}]+(?:['-][\p{L}\p{N}]+)*/gu) ?? []
  );
}

/** True when the words stand in the call's text as they are. */
function holdsWords(text: string, said: string): boolean {
  return said !== '' && ` ${wordsOf(text).join(' ')} `.includes(` ${said} `);
}

function splitCallSign(
  said: string,
  callSign: string | null,
): { readonly addressed: boolean; readonly phrase: string } {
  if (callSign === null) return { addressed: false, phrase: said };
  const sign = wordsOf(callSign).join(' ');
  if (said === sign) return { addressed: true, phrase: '' };
  return said.startsWith(`${sign} `)
    ? { addressed: true, phrase: said.slice(sign.length + 1) }
    : { addressed: false, phrase: said };
}
