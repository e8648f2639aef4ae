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
  'adhesive',
] as const satisfies readonly (keyof LooseShelf)[];

/** True when the times given stand in order: least, aim, most. */
const inOrder = ({ minS, targetS, maxS }: IfuTimes): boolean => {
  const given = [minS, targetS, maxS].filter((time) => time !== undefined);
  return given.every((time, index) => index === 0 || time >= (given[index - 1] ?? 0));
};

/** Everything wrong with the shelf beyond the schema. */
export const shelfProblems = (shelf: LooseShelf): CaseProblem[] => [
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
