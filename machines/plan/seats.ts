import type { StepId, Substrate, UnitFacts } from '../contract/index.ts';
import type { CementTable } from '../trade/cements.ts';
import { SUBSTRATE_TABLE } from '../trade/substrates.ts';

/** The teeth of a unit that stand on one substrate. */
export interface Seat {
  readonly teeth: readonly string[];
  readonly substrate: Substrate;
}

/** What the seats ask of a unit. */
export type Seated = Pick<UnitFacts, 'substrate'> & {
  readonly bridge?: UnitFacts['bridge'] | undefined;
};

/** Every substrate of a unit once, that of its own tooth first: the retainers of a bridge may differ. */
export const substratesOf = ({ substrate, bridge }: Seated): Substrate[] => [
  ...new Set([
    substrate,
    ...(bridge?.retainers ?? []).map((other) => other.substrate ?? substrate),
  ]),
];

/** Whether peroxide in the tooth keeps this cement from bonding: there has to be a tooth under it. */
export const peroxideSpoils = (
  unit: Seated,
  cement: Pick<CementTable, 'peroxideSpoils'>,
): boolean =>
  cement.peroxideSpoils && substratesOf(unit).some((id) => SUBSTRATE_TABLE[id].of !== 'abutment');

/** The retainers of a unit by what they sit on; one seat wherever they sit on the same. */
export const seatsOf = ({
  tooth,
  substrate,
  bridge,
}: Seated & { readonly tooth: string }): Seat[] => {
  const all = [
    { tooth, on: substrate },
    ...(bridge?.retainers ?? []).map((other) => ({
      tooth: other.tooth,
      on: other.substrate ?? substrate,
    })),
  ];
  return [...new Set(all.map(({ on }) => on))].map((on) => ({
    substrate: on,
    teeth: all.filter((each) => each.on === on).map((each) => each.tooth),
  }));
};

/** Teeth in a row, as '24' or '24 and 26'. */
export const teethWords = (teeth: readonly string[]): string =>
  teeth.length < 2
    ? (teeth[0] ?? '')
    : `${teeth.slice(0, -1).join(', ')} and ${teeth.at(-1) ?? ''}`;

/** Steps whose words hang on what each retainer sits on. */
export const BY_SEAT: readonly StepId[] = [
  ...(['abutment-in', 'prep-clean', 'isolate', 'pumice', 'abutment-clean', 'base-abrade'] as const),
  ...([
    'prep-roughen',
    'tooth-etch',
    'tooth-etch-rinse',
    'core-primer',
    'abutment-primer',
  ] as const),
  ...(['bond', 'bond-thin', 'prep-moist', 'prep-dry', 'isolation-out', 'residual'] as const),
];
