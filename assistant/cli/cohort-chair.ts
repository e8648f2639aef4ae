import { advance, unitOf } from '../../machines/conduct/index.ts';
import type { CaseState } from '../../machines/conduct/index.ts';
import type {
  Command,
  Outcome,
  Reason,
  Refusal,
  Stamp,
  StepId,
} from '../../machines/contract/index.ts';
import { append, canonical } from '../../machines/record/index.ts';
import type { Head } from '../../machines/record/index.ts';
import type { GradedDeviation } from '../../machines/review/index.ts';
import { nextStep, planStep } from '../../machines/seating/index.ts';
import type { UnitContext } from '../../machines/seating/index.ts';
import type { Chance } from './cohort-chance.ts';
import { platformSum } from './record-file.ts';

const REASONS: readonly Reason[] = ['clinical-judgement', 'not-needed', 'patient-comfort'];
/** An override may uncover the next refusal; more than this in a row never happens. */
const MOST_OVERRIDES = 8;

/** What follows an agent that was left out: nobody forces a rinse where nothing is to be rinsed off. */
const FOLLOWERS: readonly StepId[] = [
  'cleaner-rinse',
  'acid-clean-rinse',
  'porcelain-etch-rinse',
  'primer-dry',
];
const pointless = ({ id, step }: Refusal): boolean =>
  id === 'first' && step !== null && FOLLOWERS.includes(step);

/** What people did other than planned, as they know it themselves; the review has to find it. */
export type Done = Pick<GradedDeviation, 'grade' | 'step' | 'refusal' | 'measured' | 'since'>;

/** A chair of the invented practice: commands go the one way through, and each becomes a line. */
export class InventedChair {
  state: CaseState;
  /** Case time, milliseconds. */
  at = 0;
  head: Head;
  readonly lines: string[];
  readonly done: Done[] = [];
  /** When each step was last ended, case time in milliseconds. */
  readonly ended = new Map<StepId, number>();
  readonly chance: Chance;
  readonly #opened: number;
  readonly #who: Stamp['who'];

  constructor(state: CaseState, header: string, opened: number, chance: Chance) {
    this.state = state;
    this.lines = [header];
    this.head = { n: 0, digest: platformSum(header), at: 0 };
    this.#opened = opened;
    this.chance = chance;
    this.#who = state.case.team === 'solo' ? 'dentist' : 'assistant';
  }

  get wall(): string {
    return new Date(this.#opened + this.at).toISOString();
  }

  get unit(): UnitContext {
    return unitOf(this.state, this.state.active);
  }

  get step(): StepId | null {
    return nextStep(this.unit);
  }

  /** Lets about this many seconds pass; 0 lets none. */
  wait(seconds: number): void {
    this.at += Math.round(seconds * 1000);
  }

  /** Gives a command and writes it down. */
  say(command: Command): Outcome {
    const { state, outcome, tooth, step } = advance(this.state, command, { at: this.at });
    this.state = state;
    const via = this.chance.weighed([
      ['voice', 0.85],
      ['key', 0.1],
      ['touch', 0.05],
    ] as const);
    const stamp = {
      at: this.at,
      wall: this.wall,
      mono: this.at + 4000,
      who: this.#who,
      via,
      heard: null,
    };
    const entry = append(this.head, { stamp, tooth, step, command, outcome });
    const text = canonical(entry);
    this.lines.push(text);
    this.head = { n: entry.n, digest: platformSum(text), at: this.at };
    return outcome;
  }

  /** Gives a command, answers yes where it is asked, and overrides what may be overridden. Whether it was carried out. */
  insist(command: Command): boolean {
    let outcome = this.say(command);
    for (let turns = 0; turns < MOST_OVERRIDES; turns += 1) {
      this.wait(this.chance.between(0.8, 2.5));
      if (outcome.kind === 'asked') outcome = this.say({ type: 'confirm' });
      if (outcome.kind === 'accepted') return true;
      if (outcome.kind === 'asked') continue;
      const { refusal } = outcome;
      if (!refusal.overridable || pointless(refusal)) return false;
      this.done.push({
        grade: 'refused and forced',
        step: refusal.step,
        refusal: refusal.id,
        measured: null,
      });
      outcome = this.say({ type: 'override', reason: this.chance.pick(REASONS) });
    }
    return false;
  }

  /** Leaves a step out, with a reason. */
  skip(step: StepId): boolean {
    if (!this.insist({ type: 'skip', step, reason: this.chance.pick(REASONS) })) return false;
    this.done.push({ grade: 'not done', step, refusal: null, measured: null });
    return true;
  }

  /** The dwell the plan gives a step; null when it has none. */
  windowOf(step: StepId) {
    return planStep(this.unit, step)?.dwell ?? null;
  }
}
