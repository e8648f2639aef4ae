/**
 * The whole core over a sound file, on the file's own clock: ear, session, voice and record are
 * the app's own; only the microphone is a file and the loudspeaker takes its time in silence.
 */
import type { Call, CaseFile, Plan } from '../../machines/contract/index.ts';
import { callText } from '../../prompts/catalogue/index.ts';
import { grammarFor } from '../../prompts/phrases/index.ts';
import type { Sounding } from '../ear/attention.ts';
import { listenToPcm } from '../ear/offline.ts';
import type { Pcm, Recogniser } from '../ear/port.ts';
import type { SpeechWeights } from '../ear/vad/speech-network.ts';
import { takeHearing } from '../session/hear-command.ts';
import { makeNod } from '../session/nod.ts';
import { Session } from '../session/session.ts';
import { headerOf } from '../session/start.ts';
import { close, type Store } from '../store/index.ts';
import type { Clips } from '../voice/clips.ts';
import { createSilentPlayer } from '../voice/silent-player.ts';
import { createVoice } from '../voice/voice.ts';
import { FileClock } from './file-clock.ts';

/** One thing that happened, at a time in ms from the start of the sound. */
export type Happened =
  | {
      readonly at: number;
      readonly what: 'heard';
      readonly phrase: string | null;
      readonly score: number | null;
      readonly became: 'accepted' | 'asked' | 'refused' | 'attention' | 'ignored';
      /** Why it was ignored or refused; null otherwise. */
      readonly why: string | null;
      readonly decodeMs: number;
    }
  | {
      readonly at: number;
      readonly what: 'called';
      readonly call: Call['id'];
      readonly text: string;
    };

export interface RehearsalParts {
  readonly recogniser: Recogniser;
  readonly weights: SpeechWeights;
  /** Lengths of the rendered clips: a call takes its real time. */
  readonly clips: Clips;
  readonly store: Store;
  readonly callSign: string | null;
  /** When the file's clock stands at 0, ms since the epoch. */
  readonly startWall: number;
  /** Told as it happens. */
  readonly tell: (happened: Happened) => void;
}

/** Runs the case over the sound; resolves to the case's id in the store. */
export async function rehearseCase(
  caseFile: CaseFile,
  plan: Plan,
  pcm: Pcm,
  parts: RehearsalParts,
): Promise<string> {
  const clock = new FileClock();
  const wallAt = (ms: number): string => new Date(parts.startWall + ms).toISOString();
  let sounding: Sounding[] = [];
  const voice = createVoice({
    player: createSilentPlayer(clock, parts.clips),
    clock,
    listener: {
      onStart: ({ call, text, fromMs, untilMs, question }) => {
        sounding.push({ text, fromMs, untilMs, question });
        parts.tell({ at: Math.round(fromMs), what: 'called', call: call.id, text: callText(call) });
      },
      onEnd: ({ text, fromMs, untilMs, question }) => {
        sounding.push({ text, fromMs, untilMs, question });
      },
    },
  });
  const header = headerOf(caseFile, plan, wallAt(0));
  const writer = await parts.store.openCase(header);
  const keys = await parts.store.signingKeys();
  const session = Session.open(header, {
    keeper: writer,
    time: {
      now: () => {
        const at = Math.floor(clock.now());
        return { at, wall: wallAt(at), mono: at };
      },
    },
    say: (calls) => {
      for (const call of calls) voice.say(call);
    },
    hush: () => voice.hush(),
    schedule: (calls) => voice.schedule(calls.map(({ call, at }) => ({ call, dueMs: at }))),
    onChange: () => undefined,
    seal: (head) => close(keys, head, wallAt(clock.now())),
    who: caseFile.team === 'solo' ? 'dentist' : 'assistant',
  });
  const say = (): void => voice.say({ id: 'listening' });
  const nod = makeNod(clock, say, () => false);
  const standing = (atMs: number): { phrases: string; sounding: Sounding[] } => {
    clock.advanceTo(atMs);
    const since = sounding;
    sounding = [];
    return { phrases: grammarFor(session.live, session.teeth), sounding: since };
  };
  const options = {
    weights: parts.weights,
    standing,
    attention: { callSign: parts.callSign },
  };
  for await (const hearing of listenToPcm(pcm, parts.recogniser, options)) {
    clock.advanceTo(hearing.completeMs);
    const taken = await takeHearing(session, hearing);
    const became = taken.kind === 'command' ? taken.outcome : taken.kind;
    nod.spoke();
    if (taken.kind === 'attention') nod.called();
    parts.tell({
      at: Math.round(hearing.startMs),
      what: 'heard',
      phrase: hearing.phrase,
      score: hearing.score,
      became,
      why: hearing.why ?? (became === 'refused' ? (session.view.refusal?.id ?? null) : null),
      decodeMs: Math.round(hearing.decodeMs),
    });
  }
  clock.advanceTo((pcm.length / 16_000) * 1000);
  session.leave();
  writer.release();
  return writer.caseId;
}
