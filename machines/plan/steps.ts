import { STEPS } from '../contract/index.ts';
import type { Contaminant, StepId, UnitFacts } from '../contract/index.ts';
import { cleans } from '../trade/index.ts';
import type { UnitContext } from './context.ts';
import { prepRoute } from './prep-route.ts';
import { intaglioRoute } from './route.ts';
import type { IntaglioState } from './route.ts';
import { shelfHas } from './shelf.ts';

const when = (condition: boolean, ...steps: StepId[]): StepId[] => (condition ? steps : []);

type TriedIn = Pick<UnitFacts, 'countsCleanReason' | 'fitPaste' | 'tryInPaste' | 'intaglioFromLab'>;

/**
 * The intaglio as it comes out of the mouth after the try-in: soiled with saliva unless a reason
 * is given why it counts as clean. Such a reason never covers silicone or try-in paste.
 */
export const afterTryIn = (unit: TriedIn): IntaglioState => ({
  contaminants: [
    ...(unit.countsCleanReason === undefined ? (['saliva'] as const) : []),
    ...(unit.fitPaste ? (['fit-paste'] as const) : []),
    ...(unit.tryInPaste ? (['try-in-paste'] as const) : []),
  ],
  texture: unit.intaglioFromLab === 'untreated' ? 'none' : unit.intaglioFromLab,
  primed: false,
  wet: true,
});

/** The steps of a unit, in the order of the appointment, for the route expected after try-in. */
export const plannedSteps = (context: UnitContext): StepId[] => {
  const { unit, caseFile, cement, clock, light, material, waitForSet } = context;
  const { shelf } = caseFile;
  const wanted = new Set<StepId>([
    'case-check',
    'history',
    'equipment',
    'disinfect',
    'shade-photo',
    'airway',
    ...when(unit.provisionalCement !== 'none', 'provisional-off'),
    'prep-clean',
    'try-in',
    'contacts',
    'margins',
    ...when(unit.fitPaste, 'fit-paste'),
    ...when(unit.tryInPaste, 'shade'),
    ...when(material.biteBefore.allowed, 'bite-before'),
    'approval',
    'take-out',
    ...intaglioRoute(unit, shelf, afterTryIn(unit)),
    ...prepRoute(unit, shelf, cement),
    'mix',
    'load',
    'seat',
    light === null ? 'gel-wait' : 'tack',
    'flash',
    'floss',
    ...when(clock.table.oxygenInhibited, 'gel'),
    ...when(light !== null, 'cure-occlusal', 'cure-buccal', 'cure-lingual'),
    ...when(waitForSet, 'set'),
    'isolation-out',
    'residual',
    'bite-after',
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
  const cleanings = material.cleanings.filter(({ step }) => shelfHas(shelf, step));
  const undone = (contaminant: Contaminant): boolean =>
    cleanings.some(({ step }) => cleans(unit.material, step).includes(contaminant));
  const etchable = shelf.phosphoricAcid !== null && unit.substrate === 'enamel';
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
    ...when(light !== null, 'gel-wait', 'set'),
  ]);
  return STEPS.filter((step) => possible.has(step) && !planned.includes(step));
};
