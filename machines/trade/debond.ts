import type { ToothClass } from '../form/tooth.ts';
import { judgement, published } from './number.ts';
import type { Quantity } from './number.ts';

/** What a lost restoration can be consistent with. */
export const CAUSES = [
  'intaglio',
  'tooth-bond',
  'cement',
  'form',
  'core',
  'overload',
  'misfit',
] as const;
export type Cause = (typeof CAUSES)[number];

/** Where the cement stayed, or what came away with the restoration. */
export const CEMENT_SITES = [
  'on-tooth',
  'in-crown',
  'mixed',
  'none-or-soft',
  'core-in-crown',
] as const;
export type CementSite = (typeof CEMENT_SITES)[number];

/** How long it stayed in place. */
export const SPELLS = ['under-1-month', '1-to-12-months', '1-to-5-years', 'over-5-years'] as const;
export type Spell = (typeof SPELLS)[number];

const ratio = (value: number, note: string): Quantity => ({
  value,
  unit: 'ratio',
  ...judgement,
  note,
});

interface CauseTable {
  readonly name: string;
  /** Before anything is found. */
  readonly prior: Quantity;
  /** Chance of each finding where this is the cause; sums to 1. */
  readonly site: Readonly<Record<CementSite, Quantity>>;
  readonly spell: Readonly<Record<Spell, Quantity>>;
}

type Five = readonly [number, number, number, number, number];
type Four = readonly [number, number, number, number];

const row = (name: string, prior: number, sites: Five, spells: Four): CauseTable => {
  const given = `chance of it given: ${name}`;
  return {
    name,
    prior: ratio(prior, `prior for a bonded zirconia crown: ${name}`),
    site: {
      'on-tooth': ratio(sites[0], given),
      'in-crown': ratio(sites[1], given),
      mixed: ratio(sites[2], given),
      'none-or-soft': ratio(sites[3], given),
      'core-in-crown': ratio(sites[4], given),
    },
    spell: {
      'under-1-month': ratio(spells[0], given),
      '1-to-12-months': ratio(spells[1], given),
      '1-to-5-years': ratio(spells[2], given),
      'over-5-years': ratio(spells[3], given),
    },
  };
};

/**
 * Priors, and the chance of each finding under each cause. All of it is judgement. That cement left
 * on the tooth argues for the intaglio has some support: with abraded and primed zirconia and
 * self-adhesive cement, failure was mostly between cement and dentin (Levartovsky20).
 */
export const CAUSE_TABLE = {
  intaglio: row(
    'conditioning or cleaning of the intaglio',
    0.22,
    [0.75, 0.03, 0.17, 0.04, 0.01],
    [0.25, 0.45, 0.25, 0.05],
  ),
  'tooth-bond': row(
    'bond on the side of the tooth',
    0.15,
    [0.04, 0.7, 0.2, 0.05, 0.01],
    [0.3, 0.4, 0.22, 0.08],
  ),
  cement: row(
    'cure or handling of the cement',
    0.15,
    [0.15, 0.15, 0.3, 0.38, 0.02],
    [0.5, 0.3, 0.15, 0.05],
  ),
  form: row(
    'retention and resistance form',
    0.28,
    [0.3, 0.3, 0.32, 0.05, 0.03],
    [0.12, 0.3, 0.38, 0.2],
  ),
  core: row('core, post or tooth', 0.08, [0.02, 0.1, 0.05, 0.01, 0.82], [0.05, 0.2, 0.4, 0.35]),
  overload: row('overload', 0.07, [0.25, 0.25, 0.35, 0.03, 0.12], [0.1, 0.25, 0.4, 0.25]),
  misfit: row(
    'misfit, or not fully seated',
    0.05,
    [0.25, 0.2, 0.3, 0.23, 0.02],
    [0.2, 0.3, 0.35, 0.15],
  ),
} as const satisfies Readonly<Record<Cause, CauseTable>>;

const present = (value: number): Quantity => ({
  value,
  unit: 'ratio',
  ...published('Parker04'),
  note: 'preps that have resistance form; laboratory dies, metal castings, pooled over teeth',
});

/** How often preps have resistance form, by kind of tooth, and how often it is missing where form is the cause. */
export const FORM_FINDING = {
  present: {
    incisor: present(0.96),
    canine: present(0.92),
    premolar: present(0.81),
    molar: present(0.46),
  } as const satisfies Readonly<Record<ToothClass, Quantity>>,
  lacksWhereCause: ratio(
    0.95,
    'restorations lost through their form that lack it; over 95 % of dislodged castings did (Parker04)',
  ),
} as const;

/** Bounds of the spells, and how far a judged number is doubted. */
export const WEIGHING = {
  month: {
    value: 30,
    unit: 'd',
    ...judgement,
    note: 'a month, where the findings divide at one',
  },
  year: {
    value: 365.25,
    unit: 'd',
    ...judgement,
    note: 'a year, where the findings divide at 1 and 5',
  },
  doubt: ratio(
    2,
    'priors and chances have no range of their own: the wide range takes each cause to be judged right within this factor',
  ),
  underCured: ratio(0.5, 'share of the light dose asked below which a cure counts as none'),
  small: {
    value: 10,
    unit: 'count',
    ...judgement,
    note: 'fewer debonds than this in a group are called few: one more or less changes the picture',
  },
} as const satisfies Readonly<Record<string, Quantity>>;
