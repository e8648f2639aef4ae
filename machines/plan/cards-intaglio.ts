import type { StepId } from '../contract/index.ts';
import type { Cards } from './card.ts';
import type { UnitContext } from './context.ts';

const cleaningWhy =
  (step: StepId) =>
  ({ material }: UnitContext): string =>
    material.cleanings.find((cleaning) => cleaning.step === step)?.why ?? '';

/** The inner surface, from the rinse to primed. All of it outside the mouth. */
export const INTAGLIO = {
  'intaglio-rinse': {
    title: 'Rinse the inside',
    todo: ({ trade }) =>
      `Water spray into the crown, ${trade.dwells['intaglio-rinse'].span.target} seconds.`,
    gate: 'No blood, no paste to be seen.',
    why: 'It takes the gross part off. Water alone leaves the film that ruins the bond (Yang 2008, on zirconia).',
    who: 'assistant',
    scope: 'unit',
    cautions: [],
  },
  cleaner: {
    title: 'Alkaline cleaner',
    todo: 'Shake; cover the whole inside with cleaner, outside the mouth.',
    gate: 'All of the inside covered.',
    why: cleaningWhy('cleaner'),
    who: 'assistant',
    scope: 'unit',
    cautions: ['alkaline-cleaner'],
  },
  'cleaner-rinse': {
    title: 'Rinse the cleaner off',
    todo: 'Rinse the cleaner off with water.',
    gate: 'No white trace inside.',
    why: 'What stays on is alkali and loose zirconia under the primer.',
    who: 'assistant',
    scope: 'unit',
    cautions: ['alkaline-cleaner'],
  },
  'acid-clean': {
    title: 'Phosphoric acid clean',
    todo: 'Phosphoric acid into the crown, scrub it about.',
    gate: 'All of the inside covered.',
    why: cleaningWhy('acid-clean'),
    who: 'assistant',
    scope: 'unit',
    cautions: ['phosphoric-acid'],
  },
  'acid-clean-rinse': {
    title: 'Rinse the acid off',
    todo: 'Rinse the phosphoric acid off.',
    gate: 'No gel left.',
    why: 'Acid left behind lies between ceramic and silane.',
    who: 'assistant',
    scope: 'unit',
    cautions: ['phosphoric-acid'],
  },
  abrade: {
    title: 'Air-abrade the inside',
    todo: ({ material, caseFile }) => {
      const { abrasion } = material;
      if (abrasion === null) return '';
      const { min, max, target } = abrasion.pressure;
      const bar = caseFile.shelf.abrasion?.bar ?? target;
      const set = Math.min(Math.max(bar, min ?? bar), max ?? bar);
      return `Dry it, then abrade in the box: ${abrasion.particle.target} micrometre alumina, ${set} bar, ${abrasion.distance.value} mm away, all walls, keep moving; spare the margin${material.porcelainOutside ? ', wax or a silicone cap over the porcelain outside' : ''}.`;
    },
    gate: 'Evenly matt inside; margin sharp; dust blown off.',
    why: cleaningWhy('abrade'),
    who: 'assistant',
    scope: 'unit',
    cautions: ['abrasion-dust'],
  },
  'porcelain-etch': {
    title: 'Porcelain etch',
    todo: ({ caseFile }) =>
      `Hydrofluoric acid${caseFile.shelf.hydrofluoricAcid === null ? '' : `, ${caseFile.shelf.hydrofluoricAcid.percent} %`}, on all of the inside, outside the mouth; protect the glaze.`,
    gate: 'All of the inside covered, none outside.',
    why: cleaningWhy('porcelain-etch'),
    who: 'assistant',
    scope: 'unit',
    cautions: ['hydrofluoric-acid'],
  },
  'porcelain-etch-rinse': {
    title: 'Rinse the porcelain etch off',
    todo: 'Rinse into a neutralising bath, then running water; residue off, ultrasonic bath if there is one.',
    gate: 'No acid, no white residue.',
    why: 'Fluorosilicate residue lies loose on the crystals.',
    who: 'assistant',
    scope: 'unit',
    cautions: ['hydrofluoric-acid'],
  },
  'intaglio-dry': {
    title: 'Dry the inside',
    todo: 'Oil-free air into the crown until it is dry.',
    gate: ({ material }) =>
      material.texture === 'etched' ? 'Matt, frosty white.' : 'Matt and dry, no dust.',
    why: 'Water dilutes primer and cement.',
    who: 'assistant',
    scope: 'unit',
    cautions: [],
  },
  silane: {
    title: 'Silane',
    todo: 'Silane on all of the inside.',
    gate: 'All of the inside wetted.',
    why: 'It ties the resin to the glass.',
    who: 'assistant',
    scope: 'unit',
    cautions: ['resin-allergy'],
  },
  'zirconia-primer': {
    title: 'Zirconia primer',
    todo: 'Phosphate primer (10-MDP) on all of the inside.',
    gate: 'All of the inside wetted.',
    why: 'The phosphate monomer bonds to zirconia; abrasion and primer together last, neither alone.',
    who: 'assistant',
    scope: 'unit',
    cautions: ['resin-allergy'],
  },
  'metal-primer': {
    title: 'Metal primer',
    todo: ({ material }) =>
      material.monomer === 'sulfur'
        ? 'Sulfur-monomer primer (thione, thiophosphate) on all of the inside.'
        : 'Phosphate (10-MDP) or 4-META primer on all of the inside.',
    gate: 'All of the inside wetted.',
    why: ({ material }) =>
      material.monomer === 'sulfur'
        ? 'Sulfur binds noble metal; a phosphate alone finds no oxide there.'
        : 'The acidic monomer binds the oxide that the fresh abrasion left.',
    who: 'assistant',
    scope: 'unit',
    cautions: ['resin-allergy'],
  },
  'primer-dry': {
    title: 'Air-dry the primer',
    todo: 'Gentle oil-free air until nothing moves; then cover it, no touch.',
    gate: 'Nothing moves; covered.',
    why: 'Solvent left in weakens the layer. A touch or saliva now, and it starts again.',
    who: 'assistant',
    scope: 'unit',
    cautions: [],
  },
} satisfies Partial<Cards<StepId>>;
