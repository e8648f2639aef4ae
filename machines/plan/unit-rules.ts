import type { Cement, StepId } from '../contract/index.ts';
import { CEMENT_TABLE, materialOf } from '../trade/index.ts';
import type { LooseShelf, LooseUnit } from './loose.ts';
import type { CaseProblem } from './problem.ts';
import { retentionVerdict } from './retention.ts';
import { prepRoute } from './prep-route.ts';
import { intaglioRoute } from './route.ts';
import { shelfHas } from './shelf.ts';
import { afterTryIn } from './steps.ts';

interface Found {
  readonly unit: LooseUnit;
  /** As `units[0]`. */
  readonly name: string;
  readonly shelf: LooseShelf;
  readonly cements: readonly Cement[];
  readonly cement: Cement | undefined;
}

const titled = ({ unit, name }: Found): string =>
  unit.tooth === undefined ? name : `tooth ${unit.tooth}`;

/** What is missing for a step of the intaglio, and where to mend it. */
const missingFor = (step: StepId, found: Found): CaseProblem | null => {
  const { unit, name, shelf } = found;
  const material = unit.material === undefined ? '' : materialOf(unit.material).name;
  const whose = `${material} (${titled(found)})`;
  switch (step) {
    case 'abrade':
      if (unit.fitPaste === true) {
        return {
          field: `${name}.fitPaste`,
          message: `silicone leaves a film on ${whose} that only abrading takes off, and shelf.abrasion is null; allowed: false, or an abrasion unit on the shelf`,
        };
      }
      if (unit.intaglioFromLab !== 'abraded') {
        return {
          field: `${name}.intaglioFromLab`,
          message: `"${unit.intaglioFromLab}" leaves ${whose} unconditioned, and shelf.abrasion is null; allowed: "abraded" by the lab, or an abrasion unit on the shelf`,
        };
      }
      return {
        field: 'shelf.cleaner',
        message: `nothing cleans ${whose} after the try-in; allowed: an alkaline cleaner, or an abrasion unit on the shelf`,
      };
    case 'porcelain-etch':
      return {
        field: 'shelf.hydrofluoricAcid',
        message: `${whose} ${unit.fitPaste === true ? 'must be etched again after silicone' : 'must be etched'}; allowed: hydrofluoric acid of 4 to 10 %${
          unit.fitPaste !== true && shelf.phosphoricAcid !== null
            ? ', or etched by the lab and cleaned with phosphoric acid'
            : ''
        }`,
      };
    case 'silane':
      return {
        field: 'shelf.silane',
        message: `${whose} needs silane under this cement; allowed: a silane on the shelf`,
      };
    case 'zirconia-primer':
      return {
        field: 'shelf.phosphatePrimer',
        message: `${whose} needs a phosphate primer under ${found.cement?.label ?? 'this cement'}; allowed: a 10-MDP primer on the shelf, or a cement that carries phosphate`,
      };
    default:
      return null;
  }
};

const intaglioProblems = (found: Found): CaseProblem[] => {
  const { unit, shelf, cements, cement } = found;
  const { material, intaglioFromLab, fitPaste, tryInPaste } = unit;
  if (material === undefined || intaglioFromLab === undefined) return [];
  const route = intaglioRoute(
    { material, cement: cement?.label ?? '' },
    { ...shelf, cements: [...cements] },
    afterTryIn({
      intaglioFromLab,
      fitPaste: fitPaste ?? false,
      tryInPaste: tryInPaste ?? false,
      countsCleanReason: unit.countsCleanReason,
    }),
  );
  return route
    .filter((step) => !shelfHas(shelf, step))
    .filter((step) => cement !== undefined || step !== materialOf(material).primer)
    .flatMap((step) => missingFor(step, found) ?? []);
};

const prepProblems = (found: Found): CaseProblem[] => {
  const { unit, shelf, cement } = found;
  if (unit.substrate === undefined || cement === undefined) return [];
  const missing = prepRoute({ substrate: unit.substrate }, shelf, cement).filter(
    (step) => !shelfHas(shelf, step),
  );
  return [
    ...(missing.includes('tooth-etch')
      ? [
          {
            field: 'shelf.phosphoricAcid',
            message: `${unit.substrate} (${titled(found)}) is etched before an adhesive resin; allowed: phosphoric acid on the shelf`,
          },
        ]
      : []),
    ...(missing.includes('bond')
      ? [
          {
            field: 'shelf.adhesive',
            message: `${cement.label} (${titled(found)}) needs an adhesive on the tooth; allowed: an adhesive on the shelf, or another cement`,
          },
        ]
      : []),
  ];
};

const cementProblems = ({ unit, name, cements, cement }: Found): CaseProblem[] => {
  if (unit.cement === undefined) return [];
  if (cement === undefined) {
    const labels = cements.map(({ label }) => JSON.stringify(label)).join(', ');
    return [
      {
        field: `${name}.cement`,
        message: `"${unit.cement}" is not on the shelf; allowed: ${labels}`,
      },
    ];
  }
  const table = CEMENT_TABLE[cement.class];
  if (!table.needsForm || unit.prep === undefined || unit.tooth === undefined) return [];
  const verdict = retentionVerdict({ tooth: unit.tooth, prep: unit.prep });
  if (verdict.holds) return [];
  const bonding = cements.filter((each) => !CEMENT_TABLE[each.class].needsForm);
  return [
    {
      field: `${name}.cement`,
      message: `${table.name} needs a prep whose form holds. ${verdict.sentence} Allowed: ${
        bonding.length === 0
          ? 'an adhesive resin (none is on the shelf)'
          : bonding.map(({ label }) => JSON.stringify(label)).join(', ')
      }`,
    },
  ];
};

/** Walls that meet below the height given: no such prep. */
const shapeProblems = ({ unit, name }: Found): CaseProblem[] => {
  if (unit.prep === undefined) return [];
  const { heightMm, widthMm, convergenceDeg } = unit.prep;
  const tallest = widthMm / 2 / Math.tan((convergenceDeg * Math.PI) / 360);
  return heightMm < tallest
    ? []
    : [
        {
          field: `${name}.prep`,
          message: `walls at ${convergenceDeg} degrees on ${widthMm} mm meet at ${tallest.toFixed(1)} mm; allowed: a height below that`,
        },
      ];
};

/** Everything wrong with one unit beyond the schema, as far as it can be made out. */
export const unitProblems = (unit: LooseUnit, index: number, shelf: LooseShelf): CaseProblem[] => {
  const cements = shelf.cements.filter((cement) => cement !== null);
  const found: Found = {
    unit,
    name: `units[${index}]`,
    shelf,
    cements,
    cement: cements.find(({ label }) => label === unit.cement),
  };
  // A label that belongs to a cement which is itself wrong on the shelf is not called unknown.
  const whole = shelf.cements.length === cements.length && cements.length > 0;
  return [
    ...(found.cement === undefined && !whole ? [] : cementProblems(found)),
    ...intaglioProblems(found),
    ...prepProblems(found),
    ...shapeProblems(found),
  ];
};
