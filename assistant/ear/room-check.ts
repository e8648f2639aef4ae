/**
 * Half a minute before the first case: how loud the room is, how far speech stands above it, and
 * whether three phrases are heard. Pure: times are ms on the caller's clock, levels dB full scale.
 */
import type { Level } from './level.ts';
import type { Hearing } from './listener.ts';

/** What is read aloud after the call sign: short, early and late in an appointment. */
export const CHECK_PHRASES = ['cleaner on', 'saliva on it', 'mixing now'] as const;

/** Quiet that is listened to before anything is read, ms. */
export const QUIET_MS = 5_000;
/** A phrase that was not heard for so long is passed over, ms. */
export const PHRASE_MS = 7_000;

/** Margins of speech above noise, dB, that go with what `docs/hearing.md` measured. */
const GOOD_DB = 15;
const FAIR_DB = 8;

export type PhraseOutcome = 'right' | 'other' | 'nothing';

export interface RoomReport {
  /** Median level of the quiet room. */
  readonly noiseDbfs: number;
  /** Level of the speech alone, the room's noise taken away; null when none was heard. */
  readonly speechDbfs: number | null;
  readonly outcomes: readonly PhraseOutcome[];
  readonly verdict: 'good' | 'fair' | 'poor';
  /** What to do about it, most useful first; empty when nothing need be done. */
  readonly remedies: readonly string[];
}

/** Where a check stands. */
export type RoomStage =
  | { readonly stage: 'quiet'; readonly untilMs: number }
  | { readonly stage: 'reading'; readonly phrase: number; readonly untilMs: number }
  | { readonly stage: 'done'; readonly report: RoomReport };

type Measured = Pick<Level, 'rmsDbfs' | 'clipped' | 'ms'>;

interface Sample extends Measured {
  readonly atMs: number;
}

const power = (dbfs: number): number => 10 ** (dbfs / 10);
const lengthOf = (samples: readonly Sample[]): number =>
  samples.reduce((sum, { ms }) => sum + ms, 0);
const meanPower = (samples: readonly Sample[]): number =>
  samples.reduce((sum, { rmsDbfs, ms }) => sum + power(rmsDbfs) * ms, 0) / lengthOf(samples);

/** The level that half of the time lies below. */
function median(samples: readonly Sample[]): number {
  let leftMs = lengthOf(samples) / 2;
  for (const { rmsDbfs, ms } of samples.toSorted((one, other) => one.rmsDbfs - other.rmsDbfs)) {
    leftMs -= ms;
    if (leftMs <= 0) return rmsDbfs;
  }
  return -100;
}

/** One check of the room; give it levels and hearings as they come, and look at {@link at}. */
export class RoomCheck {
  #stage: RoomStage;
  #levels: Sample[] = [];
  #speech: Sample[] = [];
  #clipped = false;
  #noiseDbfs = -100;
  readonly #outcomes: PhraseOutcome[] = [];

  constructor(startMs: number) {
    this.#stage = { stage: 'quiet', untilMs: startMs + QUIET_MS };
  }

  /** Where the check stands at `nowMs`. */
  at(nowMs: number): RoomStage {
    const stage = this.#stage;
    if (stage.stage === 'quiet' && nowMs >= stage.untilMs) {
      this.#noiseDbfs = median(this.#levels);
      this.#stage = { stage: 'reading', phrase: 0, untilMs: nowMs + PHRASE_MS };
    }
    if (stage.stage === 'reading' && nowMs >= stage.untilMs) this.#next('nothing', nowMs);
    return this.#stage;
  }

  /** The level of sound that ends at `atMs`: a frame, or longer in a room at rest. */
  level(level: Measured, atMs: number): void {
    this.#levels.push({ ...level, atMs });
    if (this.#levels.length > 1_000) this.#levels = this.#levels.slice(-600);
    this.#clipped ||= level.clipped;
  }

  /** Somebody speaks: while quiet is wanted, the quiet begins anew. */
  speaks(nowMs: number): void {
    if (this.#stage.stage !== 'quiet') return;
    this.#levels = [];
    this.#stage = { stage: 'quiet', untilMs: nowMs + 2_000 + QUIET_MS };
  }

  /** What became of a stretch of speech. */
  heard(hearing: Hearing, nowMs: number): void {
    const stage = this.#stage;
    if (stage.stage !== 'reading') return;
    const { startMs, endMs } = hearing;
    this.#speech.push(...this.#levels.filter(({ atMs }) => atMs >= startMs && atMs <= endMs));
    if (hearing.kind === 'attention') {
      // Half of it: the phrase is still to come.
      this.#stage = { ...stage, untilMs: nowMs + PHRASE_MS };
      return;
    }
    const right = hearing.accepted && hearing.phrase === CHECK_PHRASES[stage.phrase];
    this.#next(right ? 'right' : hearing.phrase === null ? 'nothing' : 'other', nowMs);
  }

  #next(outcome: PhraseOutcome, nowMs: number): void {
    this.#outcomes.push(outcome);
    const phrase = this.#outcomes.length;
    this.#stage =
      phrase < CHECK_PHRASES.length
        ? { stage: 'reading', phrase, untilMs: nowMs + PHRASE_MS }
        : { stage: 'done', report: this.#report() };
  }

  #report(): RoomReport {
    const noiseDbfs = this.#noiseDbfs;
    const alone = this.#speech.length === 0 ? 0 : meanPower(this.#speech) - power(noiseDbfs);
    const speechDbfs = alone > 0 ? 10 * Math.log10(alone) : null;
    const marginDb = speechDbfs === null ? 0 : speechDbfs - noiseDbfs;
    const right = this.#outcomes.filter((outcome) => outcome === 'right').length;
    const verdict =
      right === this.#outcomes.length && marginDb >= GOOD_DB && !this.#clipped
        ? 'good'
        : right >= 2 && marginDb >= FAIR_DB
          ? 'fair'
          : 'poor';
    const remedies = this.#remedies(speechDbfs, marginDb, right);
    return { noiseDbfs, speechDbfs, outcomes: [...this.#outcomes], verdict, remedies };
  }

  #remedies(speechDbfs: number | null, marginDb: number, right: number): string[] {
    if (speechDbfs === null) {
      return ['No speech came through: look for a mute switch, or choose another microphone.'];
    }
    const advice: readonly (readonly [boolean, string])[] = [
      [this.#clipped, 'The microphone is too loud: turn its level down.'],
      [
        marginDb < GOOD_DB,
        'Speech hardly stands above the room: wear the microphone nearer to the mouth, or turn the suction away from it.',
      ],
      [speechDbfs < -50, 'Speech comes in very faintly: turn the microphone’s level up.'],
      [
        right < this.#outcomes.length && marginDb >= GOOD_DB,
        'It is loud enough but was not all understood: say the call sign and the phrase in one breath, not too fast.',
      ],
    ];
    return advice.filter(([holds]) => holds).map(([, text]) => text);
  }
}
