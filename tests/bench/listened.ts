/** One segment through attention and the recogniser, at the moment of a line. */
import { ATTENTION } from '../../assistant/ear/attention.ts';
import { Listener } from '../../assistant/ear/listener.ts';
import type { Pcm, Recogniser } from '../../assistant/ear/port.ts';
import { SAMPLE_RATE } from '../../assistant/ear/port.ts';

export interface Moment {
  /** JSGF text whose rule `<phrase>` is what may be said. */
  readonly phrases: string;
  readonly callSign: string;
  /** Whether a command was given just before, so that the call sign may be left out. */
  readonly isAwake: boolean;
}

/** What is taken (`sure`) or asked back, the call sign left out; null when neither. */
export async function listened(recogniser: Recogniser, pcm: Pcm, moment: Moment) {
  const { phrases, callSign, isAwake } = moment;
  const listener = new Listener({
    recogniser,
    attention: { ...ATTENTION, callSign },
    phrases,
    now: () => performance.now(),
    lateMs: Infinity,
  });
  if (isAwake) listener.addressed(0);
  const endMs = (pcm.length * 1000) / SAMPLE_RATE;
  const span = { startMs: 0, endMs, speechStartMs: 0, speechEndMs: endMs };
  const { kind, phrase, sure } = await listener.hear({ kind: 'segment', pcm, ...span, cut: false });
  if (kind === 'attention') return { phrase: callSign, sure: true };
  return kind === 'command' && phrase !== null ? { phrase, sure } : null;
}
