import type { Call } from './call.ts';
import type { Refusal } from './refusal.ts';
import type { CautionId, Contaminant, Material, StepId } from './terms.ts';

/** Where a step stands. `again`: it was done, and something made it due once more. */
export type StepStatus = 'open' | 'now' | 'running' | 'done' | 'skipped' | 'again';

/** A dwell as a screen shows it, times in milliseconds of effective (not held) time. */
export interface DwellView {
  readonly step: StepId;
  readonly title: string;
  readonly tooth: string;
  readonly elapsedMs: number;
  readonly minMs: number;
  readonly targetMs: number;
  readonly maxMs: number | null;
  readonly phase: 'short' | 'right' | 'long';
  readonly held: boolean;
}

/** A clock that runs by itself: of the cement, or of a surface that does not stay good. */
export interface ClockView {
  readonly clock: 'seat-by' | 'hold-until-gel' | 'hold-until-set' | 'use-within';
  readonly tooth: string;
  /** The step that left the surface; null for the cement's clocks. */
  readonly step: StepId | null;
  /** Milliseconds left; negative when over. */
  readonly leftMs: number;
}

/** Everything the chairside screen needs; made by `view(state, at)`, plain data. */
export interface ChairView {
  readonly reference: string;
  readonly invented: boolean;
  readonly pace: 'going' | 'paused' | 'stopped' | 'closed';
  readonly unit: {
    readonly tooth: string;
    readonly name: string;
    readonly material: Material;
    readonly materialName: string;
  };
  readonly units: readonly {
    readonly tooth: string;
    readonly name: string;
    readonly finished: boolean;
    readonly active: boolean;
  }[];
  /** The step to do now; null when the unit is finished. */
  readonly step: {
    readonly id: StepId;
    readonly title: string;
    readonly todo: string;
    readonly gate: string;
    readonly who: string;
    readonly cautions: readonly { readonly id: CautionId; readonly text: string }[];
    readonly targetS: number | null;
  } | null;
  readonly then: { readonly id: StepId; readonly title: string } | null;
  readonly steps: readonly {
    readonly id: StepId;
    readonly title: string;
    readonly status: StepStatus;
  }[];
  readonly dwells: readonly DwellView[];
  /** Clocks of every unit but the seat-by of this one, which stands by itself; the first to be over, first. */
  readonly clocks: readonly ClockView[];
  /** Milliseconds left of the cement's working time; negative when over; null when no cement is mixed or it is seated. */
  readonly seatByMs: number | null;
  readonly surfaces: {
    readonly where: 'bench' | 'mouth' | 'seated';
    readonly intaglio: string;
    readonly contaminants: readonly Contaminant[];
    readonly prep: string;
    readonly field: string;
    readonly cement: string;
  };
  /** The question that waits for an answer. */
  readonly asked: Call | null;
  readonly refusal: Refusal | null;
  readonly deviations: number;
}
