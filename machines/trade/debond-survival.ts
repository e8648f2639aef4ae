import { memory, published } from './number.ts';
import type { Quantity } from './number.ts';
import type { SourceKey } from './sources.ts';

/** A published share that lasted, and after how long. */
export interface SurvivalAnchor {
  readonly name: string;
  readonly of: 'survival' | 'retention';
  /** Share that survived, or stayed in place. */
  readonly share: Quantity;
  readonly time: Quantity;
}

const anchor = (
  name: string,
  of: SurvivalAnchor['of'],
  percent: number,
  years: number,
  from: SourceKey,
  read = true,
): SurvivalAnchor => {
  const origin = read ? published(from) : memory(from);
  return {
    name,
    of,
    share: { value: percent, unit: 'percent', ...origin, note: `${of} of ${name}` },
    time: { value: years, unit: 'year', ...origin, note: `follow-up of ${name}` },
  };
};

/**
 * How long restorations last. The hazard that follows is taken as constant, which is a planning
 * fiction: debonds cluster early (handling) and late (form, decay). No source found splits the
 * long-term debond rate by cement within one material.
 */
export const SURVIVAL_ANCHORS = {
  'metal-ceramic-crown': anchor('metal-ceramic single crowns', 'survival', 94.7, 5, 'Sailer15'),
  'glass-ceramic-crown': anchor(
    'leucite or lithium disilicate crowns',
    'survival',
    96.6,
    5,
    'Sailer15',
  ),
  'zirconia-crown': anchor('zirconia crowns, mostly layered', 'survival', 92.1, 5, 'Sailer15'),
  'zirconia-crown-retention': anchor('zirconia crowns', 'retention', 95.3, 5, 'Sailer15', false),
  'metal-ceramic-crown-retention': anchor(
    'metal-ceramic single crowns',
    'retention',
    99.4,
    5,
    'Sailer15',
    false,
  ),
  'veneer-retention': anchor('porcelain veneers', 'retention', 99.2, 10, 'PLV21'),
  'implant-crown-retention': anchor('implant crowns', 'retention', 95.9, 5, 'Jung12', false),
  'student-crown': anchor(
    'metal and metal-ceramic crowns of a student clinic',
    'survival',
    83.9,
    5,
    'Student21',
  ),
} as const satisfies Readonly<Record<string, SurvivalAnchor>>;

/** The constant hazard an anchor stands for, per crown-year: minus the log of the share over the time. */
export const hazardOf = ({ share, time }: Pick<SurvivalAnchor, 'share' | 'time'>): number =>
  -Math.log(share.value / 100) / time.value;
