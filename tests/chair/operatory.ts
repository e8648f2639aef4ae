import type {
  Call,
  CaseFile,
  Command,
  Deviation,
  Entry,
  Outcome,
  Stamp,
  StepId,
} from '../../machines/contract/index.ts';
import { advance, type CaseState, initialState, unitOf } from '../../machines/conduct/index.ts';
import { makePlan } from '../../machines/plan/index.ts';
import { meaningOf } from './meaning.ts';
import { nextStep, planStep, type UnitContext } from '../../machines/seating/index.ts';

/** A line of the record, and the step that bare words meant when they were said. */
type Told = Pick<Entry, 'command' | 'outcome' | 'tooth' | 'step'> & {
  readonly at: number;
  readonly means: StepId | null;
  readonly heard: Stamp['heard'];
};

/** A made operatory: commands go in as people would give them, time passes when it is told to. */
export class Operatory {
  state: CaseState;
  at = 0;
  readonly told: Told[] = [];
  calls: readonly Call[] = [];

  constructor(caseFile: CaseFile) {
    this.state = initialState(caseFile, makePlan(caseFile));
  }

  /** Another operatory that stands where this one does; neither changes the other. */
  fork(): Operatory {
    const twin = new Operatory(this.state.case);
    twin.state = this.state;
    twin.at = this.at;
    twin.told.push(...this.told);
    return twin;
  }

  /** Says something so that it is heard with middling confidence. */
  mumble(command: Command): Outcome {
    return this.say(command, { phrase: command.type, score: 0.4, unsure: true });
  }

  /** Gives a command and returns what came of it. */
  say(command: Command, heard: Stamp['heard'] = null): Outcome {
    const means = meaningOf(this.state, command);
    const result = advance(this.state, command, { at: this.at, heard });
    this.state = result.state;
    this.calls = result.calls;
    const { outcome, tooth, step } = result;
    this.told.push({ at: this.at, command, outcome, tooth, step, means, heard });
    return outcome;
  }

  /** Gives a command that must be accepted, answering yes if it is read back. */
  must(command: Command): this {
    let outcome = this.say(command);
    if (outcome.kind === 'asked') outcome = this.say({ type: 'confirm' });
    if (outcome.kind !== 'accepted') {
      throw new Error(`${JSON.stringify(command)} came to ${JSON.stringify(outcome)}`);
    }
    return this;
  }

  /** The reason a command is refused for; throws when it is not refused. */
  refusedFor(command: Command): string {
    const outcome = this.say(command);
    if (outcome.kind !== 'refused') {
      throw new Error(`${JSON.stringify(command)} came to ${JSON.stringify(outcome)}`);
    }
    return outcome.refusal.id;
  }

  wait(seconds: number): this {
    this.at += seconds * 1000;
    return this;
  }

  get unit(): UnitContext {
    return unitOf(this.state, this.state.active);
  }

  unitOn(tooth: string): UnitContext {
    return unitOf(this.state, tooth);
  }

  get step(): StepId | null {
    return nextStep(this.unit);
  }

  get deviations(): readonly Deviation[] {
    return this.told.flatMap(({ outcome }) =>
      outcome.kind === 'accepted' && outcome.deviation !== null ? [outcome.deviation] : [],
    );
  }

  /** Does the step that is due as the plan asks: begin, serve the dwell, finish. */
  doStep(): this {
    const { step } = this;
    if (step === null) throw new Error('No step is due');
    const dwell = planStep(this.unit, step)?.dwell ?? null;
    if (step === 'try-in') this.must({ type: 'begin', step });
    if (step === 'mix' || step === 'load') return this.must({ type: 'begin', step }).wait(2);
    if (dwell !== null) this.must({ type: 'begin', step }).wait(dwell.targetS);
    return this.must({ type: 'finish', step }).wait(1);
  }

  /** Goes on by the plan until `step` is due. @throws when it never is. */
  until(step: StepId | null): this {
    for (let turns = 0; this.step !== step; turns += 1) {
      if (turns > 120) throw new Error(`${String(step)} never came; at ${String(this.step)}`);
      this.doStep();
    }
    return this;
  }
}
