import { CEMENT_CLASSES } from '../contract/index.ts';
import type { Cement, StepId } from '../contract/index.ts';
import { materialOf } from '../trade/index.ts';
import type { Trade } from '../trade/index.ts';
import { cementReasons } from './cement-rules.ts';
import type { Bonding } from './cement-rules.ts';
import { lightPlan } from './light-plan.ts';
import type { LooseShelf, LooseUnit } from './loose.ts';
import { pairProblems } from './pair-rules.ts';
import type { CaseProblem } from './problem.ts';
import { needsPrep, retentionVerdict } from './retention.ts';
import { prepRoute } from './prep-route.ts';
import { intaglioRoute } from './route.ts';
import { peroxideSpoils, seatsOf, teethWords } from './seats.ts';
import { shelfHas } from './shelf.ts';
import { afterTryIn } from './steps.ts';
import { leastThickness } from './thickness.ts';

interface Found {
  readonly unit: LooseUnit;
  /** As `units[0]`. */
  readonly name: string;
  readonly shelf: LooseShelf;
  readonly cements: readonly Cement[];
  readonly cement: Cement | undefined;
  readonly trade: Trade;
}

const titled = ({ unit, name }: Found): string =>
  unit.tooth === undefined ? name : `tooth ${unit.tooth}`;

/** What is missing for a step of the intaglio, and where to mend it. */
const missingFor = (step: StepId, found: Found): CaseProblem | null => {
  const { unit, name, shelf, trade } = found;
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
        message: `${whose} ${unit.fitPaste === true ? 'must be etched again after silicone' : 'must be etched'}; allowed: hydrofluoric acid of ${trade.limits.hydrofluoricAcid.min} to ${trade.limits.hydrofluoricAcid.max} %${
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
    case 'metal-primer': {
      const { monomer } = materialOf(unit.material ?? 'noble-metal');
      return {
        field: 'shelf.metalPrimer',
        message: `${whose} needs a metal primer under ${found.cement?.label ?? 'this cement'}; allowed: one with ${monomer === 'sulfur' ? 'a sulfur monomer ("sulfur" or "both")' : 'a phosphate monomer ("phosphate" or "both"; a 10-MDP primer may be entered there)'}${monomer === 'phosphate' ? ', or a cement that carries phosphate' : ''}`,
      };
    }
    default:
      return null;
  }
};

/** A metal primer that is there, but binds another alloy. */
const wrongMonomer = (route: readonly StepId[], { unit, shelf, trade }: Found): CaseProblem[] => {
  const primer = shelf.metalPrimer ?? null;
  if (primer === null || primer.monomer === 'both') return [];
  const wanted = [
    ...(route.includes('metal-primer') && unit.material !== undefined
      ? [trade.materials[unit.material]]
      : []),
    ...(route.includes('core-primer') && unit.substrate !== undefined
      ? [trade.substrates[unit.substrate]]
      : []),
  ].filter(({ monomer }) => monomer !== null && monomer !== primer.monomer);
  return wanted.map(({ name, monomer }) => ({
    field: 'shelf.metalPrimer.monomer',
    message: `"${primer.monomer}" does not bind ${name}; allowed: "${monomer ?? ''}" or "both"`,
  }));
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
      ...(unit.substrate === undefined ? {} : { substrate: unit.substrate }),
    }),
  );
  return [
    ...route
      .filter((step) => !shelfHas(shelf, step))
      .filter((step) => cement !== undefined || step !== materialOf(material).primer)
      .flatMap((step) => missingFor(step, found) ?? []),
    ...(cement === undefined ? [] : wrongMonomer(route, found)),
  ];
};

/** The seats of a unit, each as a unit of its own on its own teeth. */
const seatsFound = (found: Found): { readonly at: Found; readonly whose: string }[] => {
  const { substrate, bridge, tooth } = found.unit;
  if (substrate === undefined) return [];
  const seats = seatsOf({ tooth: tooth ?? '', substrate, bridge });
  return seats.map((seat) => ({
    at: { ...found, unit: { ...found.unit, substrate: seat.substrate, bridge: undefined } },
    whose: seats.length > 1 ? `tooth ${teethWords(seat.teeth)}` : titled(found),
  }));
};

const seatProblems = (found: Found, whose: string): CaseProblem[] => {
  const { unit, shelf, cement, trade } = found;
  if (unit.substrate === undefined || cement === undefined) return [];
  const on = `${trade.substrates[unit.substrate].name} (${whose})`;
  const route = prepRoute({ substrate: unit.substrate, bonding: unit.bonding }, shelf, cement);
  const lacking = (step: StepId, field: string, message: string): CaseProblem[] =>
    route.includes(step) && !shelfHas(shelf, step) ? [{ field, message }] : [];
  return [
    ...lacking(
      'tooth-etch',
      'shelf.phosphoricAcid',
      `${on} is etched before an adhesive resin; allowed: phosphoric acid on the shelf${unit.bonding === undefined ? '' : ', or bonding in self-etch mode'}`,
    ),
    ...lacking(
      'bond',
      'shelf.adhesive',
      `${cement.label} (${whose}) needs an adhesive on the tooth; allowed: an adhesive on the shelf, or another cement`,
    ),
    ...lacking(
      'core-primer',
      'shelf.metalPrimer',
      `${on} is primed under a resin cement; allowed: a metal primer on the shelf, or an acid-base cement where form holds`,
    ),
    ...lacking(
      'abutment-primer',
      'shelf.phosphatePrimer',
      `${on} is primed under ${cement.label}; allowed: a 10-MDP primer on the shelf, or a cement that carries phosphate`,
    ),
    ...lacking(
      'base-abrade',
      'shelf.abrasion',
      `${on} is abraded before it is bonded; allowed: an abrasion unit on the shelf`,
    ),
    ...wrongMonomer(
      route.filter((step) => step === 'core-primer'),
      found,
    ),
  ];
};

/** What each retainer lacks; the same lack of several is told once. */
const prepProblems = (found: Found): CaseProblem[] =>
  seatsFound(found)
    .flatMap(({ at, whose }) => seatProblems(at, whose))
    .filter(
      ({ field, message }, index, all) =>
        all.findIndex((each) => each.field === field && each.message === message) === index,
    );

/** All that the cement's rules ask; null while some of it is not known. */
const bondingOf = ({ unit, shelf, trade }: Found): Bonding | null => {
  const { tooth, kind, material, substrate, thicknessMm, prep } = unit;
  if (tooth === undefined || kind === undefined) return null;
  if (material === undefined || substrate === undefined) return null;
  const light =
    thicknessMm === undefined || shelf.light === undefined
      ? null
      : lightPlan({ ...unit, material, thicknessMm }, shelf.light, trade);
  const known = prep !== undefined || !needsPrep(kind);
  const facts = { tooth, kind, material, substrate, prep, bridge: unit.bridge };
  return {
    kind,
    material,
    substrate,
    thicknessMm,
    verdict: known ? retentionVerdict(facts, trade) : null,
    lightReaches: light?.reaches ?? null,
  };
};

/** An acidic adhesive eats the amine that a self-curing resin starts with. */
const adhesiveProblems = ({ shelf, cement, name, unit }: Found): CaseProblem[] => {
  const adhesive = shelf.adhesive ?? null;
  if (cement === undefined || adhesive === null || unit.substrate === undefined) return [];
  const used = prepRoute({ ...unit, substrate: unit.substrate }, shelf, cement);
  const clash =
    used.includes('bond') &&
    adhesive.acidic === true &&
    adhesive.activator !== true &&
    cement.amine === true &&
    cement.class !== 'adhesive-resin-light';
  return clash
    ? [
        {
          field: `${name}.cement`,
          message: `${adhesive.label} is acidic and consumes the amine ${cement.label} starts with; lighting the film does not mend it (Sanares 2001, Tay 2003, from memory); allowed: an activator (shelf.adhesive.activator), an amine-free cement, or another adhesive`,
        },
      ]
    : [];
};

const desensitiserProblems = ({ unit, name, cement, trade }: Found): CaseProblem[] => {
  const { desensitiser } = unit;
  const resin = cement !== undefined && trade.cements[cement.class].takesPrimer;
  return resin && (desensitiser === 'oxalate' || desensitiser === 'fluoride-varnish')
    ? [
        {
          field: `${name}.desensitiser`,
          message: `"${desensitiser}" keeps resin off the dentin; allowed: "glutaraldehyde", "chlorhexidine", or none`,
        },
      ]
    : [];
};

/** Oxygen in a freshly bleached tooth: no resin bonds to it yet. */
const bleachedProblems = ({ unit, name, cement, trade }: Found): CaseProblem[] => {
  const { substrate, bridge, bleachedDaysAgo: days, bleachedReason } = unit;
  if (days === undefined || substrate === undefined || cement === undefined) return [];
  const { bleachingDelay, ascorbate } = trade.limits;
  const spoilt = peroxideSpoils({ substrate, bridge }, trade.cements[cement.class]);
  return spoilt && days < bleachingDelay.min && bleachedReason === undefined
    ? [
        {
          field: `${name}.bleachedDaysAgo`,
          message: `bleached ${days} days ago: neither resin nor resin-modified glass ionomer bonds to freshly bleached enamel (Ferraz 2018; PMC3198552); allowed: from ${bleachingDelay.min} days, or ${name}.bleachedReason (${ascorbate.value} % ascorbate reversed the loss)`,
        },
      ]
    : [];
};

/** Thick enough only under a resin that carries it. */
const carriedProblems = ({ unit, name, cement, trade }: Found): CaseProblem[] => {
  const { kind, material, thicknessMm, belowMinimumReason } = unit;
  if (kind === undefined || material === undefined || thicknessMm === undefined) return [];
  if (cement === undefined || belowMinimumReason !== undefined) return [];
  const table = trade.materials[material];
  const luting = trade.cements[cement.class];
  const least = leastThickness({ kind }, table, luting);
  const bonded = leastThickness({ kind }, table, { takesPrimer: true });
  if (least === null || bonded === null || thicknessMm >= least || thicknessMm < bonded) return [];
  return [
    {
      field: `${name}.thicknessMm`,
      message: `${thicknessMm} mm of ${table.name} is enough only where it is bonded, not under ${luting.name}; allowed: from ${least} mm, a resin cement, or ${name}.belowMinimumReason`,
    },
  ];
};

const cementProblems = (found: Found): CaseProblem[] => {
  const { unit, name, cements, cement, trade } = found;
  if (unit.cement === undefined) return [];
  const field = `${name}.cement`;
  if (cement === undefined) {
    const labels = cements.map(({ label }) => JSON.stringify(label)).join(', ');
    return [{ field, message: `"${unit.cement}" is not on the shelf; allowed: ${labels}` }];
  }
  const bonding = bondingOf(found);
  if (bonding === null) return [];
  const [why] = cementReasons(bonding, cement.class, trade);
  if (why === undefined) return [];
  const fit = cements.filter((each) => cementReasons(bonding, each.class, trade).length === 0);
  const classes = CEMENT_CLASSES.filter((id) => cementReasons(bonding, id, trade).length === 0).map(
    (id) => trade.cements[id].name,
  );
  const allowed =
    fit.length > 0
      ? fit.map(({ label }) => JSON.stringify(label)).join(', ')
      : classes.length > 0
        ? `${classes.join(', ')} (none is on the shelf)`
        : 'none: change material, kind or substrate';
  return [{ field, message: `${why}${why.endsWith('.') ? ' A' : '; a'}llowed: ${allowed}` }];
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
export const unitProblems = (
  unit: LooseUnit,
  index: number,
  shelf: LooseShelf,
  trade: Trade,
): CaseProblem[] => {
  const cements = shelf.cements.filter((cement) => cement !== null);
  const found: Found = {
    unit,
    name: `units[${index}]`,
    shelf,
    cements,
    cement: cements.find(({ label }) => label === unit.cement),
    trade,
  };
  // A label that belongs to a cement which is itself wrong on the shelf is not called unknown.
  const whole = shelf.cements.length === cements.length && cements.length > 0;
  return [
    ...pairProblems(unit, found.name, trade),
    ...(found.cement === undefined && !whole ? [] : cementProblems(found)),
    ...carriedProblems(found),
    ...adhesiveProblems(found),
    ...desensitiserProblems(found),
    ...bleachedProblems(found),
    ...intaglioProblems(found),
    ...prepProblems(found),
    ...shapeProblems(found),
  ];
};
