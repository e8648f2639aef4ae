import { numberAt, ownOf } from '../trade/index.ts';
import type { Trade } from '../trade/index.ts';
import type { IfuTimes } from './ifu.ts';
import type { LooseShelf, LooseUnit } from './loose.ts';
import type { CaseProblem } from './problem.ts';

const ITEMS = [
  'abrasion',
  'cleaner',
  'hydrofluoricAcid',
  'phosphoricAcid',
  'silane',
  'phosphatePrimer',
  'metalPrimer',
  'adhesive',
] as const satisfies readonly (keyof LooseShelf)[];

/** True when the times given stand in order: least, aim, most. */
const inOrder = ({ minS, targetS, maxS }: IfuTimes): boolean => {
  const given = [minS, targetS, maxS].filter((time) => time !== undefined);
  return given.every((time, index) => index === 0 || time >= (given[index - 1] ?? 0));
};

/** A value against its limits. */
const outside = (
  field: string,
  value: number | undefined,
  { min, max }: { readonly min: number; readonly max: number },
  unit: string,
): CaseProblem[] =>
  value === undefined || (value >= min && value <= max)
    ? []
    : [{ field, message: `${value} is not allowed; allowed: ${min} to ${max} ${unit}` }];

/** Settings and strengths that no material takes, and a light too weak to cure with. */
const limitProblems = (
  { abrasion, hydrofluoricAcid, light }: LooseShelf,
  trade: Trade,
): CaseProblem[] => {
  const { limits } = trade;
  const weak = light !== null && light !== undefined && light.mwCm2 < trade.light.stop.value;
  return [
    ...outside(
      'shelf.abrasion.particleUm',
      abrasion?.particleUm,
      limits.abrasionParticle,
      'micrometres',
    ),
    ...outside('shelf.abrasion.bar', abrasion?.bar, limits.abrasionPressure, 'bar'),
    ...outside(
      'shelf.hydrofluoricAcid.percent',
      hydrofluoricAcid?.percent,
      limits.hydrofluoricAcid,
      '%',
    ),
    ...(weak
      ? [
          {
            field: 'shelf.light.mwCm2',
            message: `${light.mwCm2} is too weak to cure with; allowed: from ${trade.light.stop.value} mW/cm2, or null for no light`,
          },
        ]
      : []),
  ];
};

/** The practice's own numbers: each has to stand for a number that is there, and keep its shape. */
const ownNumbers = ({ numbers }: LooseShelf): CaseProblem[] =>
  (numbers ?? []).flatMap((own, index) => {
    const at = `shelf.numbers[${index}]`;
    const built = numberAt(own.path);
    if (built === null) {
      return [
        {
          field: `${at}.path`,
          message: `"${own.path}" is no number of the seating tables; allowed: a path as \`plan -- --sources\` prints it, such as materials.zirconia-3y.conditioning`,
        },
      ];
    }
    const single = 'value' in built;
    const given = single ? own.value !== undefined : own.value === undefined;
    const lost =
      !single &&
      ((own.min === null && built.min !== null) || (own.max === null && built.max !== null));
    if (!given || lost) {
      return [
        {
          field: single ? `${at}.value` : at,
          message: single
            ? 'missing; allowed: a number'
            : 'allowed: min, target or max, numbers; an end that has a number keeps one',
        },
      ];
    }
    const now = ownOf(built, own);
    const order =
      'value' in now ||
      ((now.min ?? -Infinity) <= now.target && now.target <= (now.max ?? Infinity));
    const negative = 'value' in now ? now.value < 0 : (now.min ?? now.target) < 0;
    return order && !negative
      ? []
      : [{ field: at, message: 'out of order; allowed: min, target, max rising, none below 0' }];
  });

/** Everything wrong with the shelf beyond the schema. */
export const shelfProblems = (shelf: LooseShelf, trade: Trade): CaseProblem[] => [
  ...limitProblems(shelf, trade),
  ...ownNumbers(shelf),
  ...ITEMS.flatMap((item) => {
    const ifu = shelf[item]?.ifu;
    return ifu === undefined || inOrder(ifu)
      ? []
      : [
          {
            field: `shelf.${item}.ifu`,
            message: 'times out of order; allowed: minS, targetS, maxS rising',
          },
        ];
  }),
  ...shelf.cements.flatMap((cement, index) => {
    if (cement === null) return [];
    const first = shelf.cements.findIndex((other) => other?.label === cement.label);
    const { workingS, settingS } = cement;
    return [
      ...(first < index
        ? [
            {
              field: `shelf.cements[${index}].label`,
              message: `"${cement.label}" is there twice; allowed: one label for one cement`,
            },
          ]
        : []),
      ...(workingS !== undefined && settingS !== undefined && settingS <= workingS
        ? [
            {
              field: `shelf.cements[${index}].settingS`,
              message: `${settingS} s is not after the working time; allowed: above ${workingS} s`,
            },
          ]
        : []),
    ];
  }),
];

/** Teeth named twice. */
export const twiceNamed = (units: readonly LooseUnit[]): CaseProblem[] =>
  units.flatMap(({ tooth }, index) =>
    tooth !== undefined && units.findIndex((other) => other.tooth === tooth) < index
      ? [
          {
            field: `units[${index}].tooth`,
            message: `${tooth} is there twice; allowed: one unit for one tooth`,
          },
        ]
      : [],
  );
