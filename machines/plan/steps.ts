import { STEPS } from '../contract/index.ts';
import type { Contaminant, StepId, UnitFacts } from '../contract/index.ts';
import { cleans } from '../trade/index.ts';
import type { UnitContext } from './context.ts';
import { prepRoute } from './prep-route.ts';
import { intaglioRoute } from './route.ts';
import type { IntaglioState } from './route.ts';
import { shelfHas } from './shelf.ts';

const when = (condition: boolean, ...steps: StepId[]): StepId[] => (condition ? steps : []);

type TriedIn = Pick<
  UnitFacts,
  'countsCleanReason' | 'fitPaste' | 'tryInPaste' | 'intaglioFromLab'
> &
  Partial<Pick<UnitFacts, 'substrate'>>;

/**
 * The intaglio as it comes out of the mouth after the try-in: soiled with saliva unless a reason
 * is given why it counts as clean. Such a reason never covers silicone or try-in paste.
 */
export const afterTryIn = (unit: TriedIn): IntaglioState => {
  const texture = unit.intaglioFromLab === 'untreated' ? 'none' : unit.intaglioFromLab;
  // On a titanium base it is bonded before anyone tries it in: it was handled, no more.
  if (unit.substrate === 'titanium-base') {
    return { contaminants: ['glove'], texture, primed: false, wet: false };
  }
  return {
    contaminants: [
      ...(unit.countsCleanReason === undefined ? (['saliva'] as const) : []),
      ...(unit.fitPaste ? (['fit-paste'] as const) : []),
      ...(unit.tryInPaste ? (['try-in-paste'] as const) : []),
    ],
    texture,
    primed: false,
    wet: true,
  };
};

/** Up to the crown out again, in the mouth; a crown on a titanium base skips all of it. */
const beforeBench = ({ unit, material, seats, trade }: UnitContext): StepId[] => {
  const on = seats.map(({ substrate }) => trade.substrates[substrate].of);
  const biteFirst =
    material.biteBefore.allowed &&
    unit.kind !== 'veneer' &&
    (unit.kind !== 'inlay' || material.family === 'metal');
  return [
    'disinfect',
    'shade-photo',
    'airway',
    ...when(unit.provisionalCement !== 'none', 'provisional-off'),
    ...when(on.includes('abutment'), 'abutment-in'),
    ...when(
      on.some((of) => of !== 'abutment'),
      'prep-clean',
    ),
    'try-in',
    'contacts',
    'margins',
    ...when(unit.fitPaste, 'fit-paste'),
    ...when(unit.tryInPaste, 'shade'),
    ...when(biteFirst, 'bite-before'),
    'approval',
    'take-out',
  ];
};

/** From the set to the bite: in the mouth, or from the bench into it. */
const afterSet = ({ unit }: UnitContext): StepId[] =>
  unit.substrate === 'titanium-base'
    ? ['joint-finish', 'screw-in', 'torque', 'bite-after', 'access-close']
    : ['isolation-out', 'residual', 'bite-after'];

/** The steps of a unit, in the order of the appointment, for the route expected after try-in. */
export const plannedSteps = (context: UnitContext): StepId[] => {
  const { unit, caseFile, cement, clock, light, material, waitForSet } = context;
  const { shelf } = caseFile;
  const onBench = unit.substrate === 'titanium-base';
  const wanted = new Set<StepId>([
    'case-check',
    'history',
    'equipment',
    ...(onBench ? [] : beforeBench(context)),
    ...intaglioRoute(unit, shelf, afterTryIn(unit)),
    ...prepRoute(unit, shelf, cement),
    'mix',
    'load',
    'seat',
    light === null ? 'gel-wait' : 'tack',
    'flash',
    ...when(!onBench, 'floss'),
    ...when(clock.table.oxygenInhibited, 'gel'),
    // No light passes metal: only its margins are lit.
    ...when(light !== null && material.attenuation !== null, 'cure-occlusal'),
    ...when(light !== null, 'cure-buccal', 'cure-lingual'),
    ...when(waitForSet, 'set'),
    ...afterSet(context),
    'polish',
    'instructions',
    'lots',
  ]);
  return STEPS.filter((step) => wanted.has(step));
};

/** Steps that may become necessary for this material, with what is on the shelf. */
export const spareSteps = (context: UnitContext, planned: readonly StepId[]): StepId[] => {
  const { unit, caseFile, clock, light, material } = context;
  const { shelf } = caseFile;
  const onBench = unit.substrate === 'titanium-base';
  const cleanings = material.cleanings.filter(({ step }) => shelfHas(shelf, step));
  const undone = (contaminant: Contaminant): boolean =>
    !onBench && cleanings.some(({ step }) => cleans(unit.material, step).includes(contaminant));
  const enamel = context.seats.some(({ substrate }) => substrate === 'enamel');
  // A separate enamel etch is for a route that ends moist: dried metal beside it is not etched round.
  const etchable = shelf.phosphoricAcid !== null && enamel && planned.includes('prep-moist');
  const possible = new Set<StepId>([
    ...when(undone('fit-paste'), 'fit-paste'),
    ...when(undone('try-in-paste'), 'shade'),
    'intaglio-rinse',
    'intaglio-dry',
    ...cleanings.flatMap(({ step, rinse }) => (rinse === null ? [step] : [step, rinse])),
    ...when(
      clock.table.takesPrimer && shelfHas(shelf, material.primer),
      material.primer,
      'primer-dry',
    ),
    ...when(clock.table.moisture === 'moist' && etchable, 'tooth-etch', 'tooth-etch-rinse'),
    ...when(light !== null && clock.table.setsAlone, 'gel-wait', 'set'),
  ]);
  return STEPS.filter((step) => possible.has(step) && !planned.includes(step));
};
