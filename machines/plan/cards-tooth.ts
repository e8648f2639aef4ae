import type { StepId } from '../contract/index.ts';
import type { Cards } from './card.ts';
import type { UnitContext } from './context.ts';

/** How this surface is opened up before it is bonded to. */
const roughening = ({ unit, trade: { limits } }: UnitContext): string => {
  const { sealedParticle, sealedPressure, sealedBlast, coreParticle } = limits;
  const blast = `${coreParticle.value} micrometre alumina with dam and suction`;
  switch (unit.substrate) {
    case 'sealed-dentin':
      return `Reactivate the sealed surface: ${sealedParticle.min} to ${sealedParticle.max} micrometre alumina at ${sealedPressure.value} bar or less, ${sealedBlast.min} to ${sealedBlast.max} seconds, with dam and suction; or pumice with force.`;
    case 'amalgam-core':
      return `Roughen the amalgam: ${blast}, or a diamond.`;
    case 'composite-core':
      return `Roughen the core: fine diamond, or ${blast}; no restoration in the mouth.`;
    default:
      return `Roughen the core: diamond, or ${blast}.`;
  }
};

/** Where the acid is to be seen. */
const ETCHED: Readonly<Record<string, string>> = {
  enamel: 'all of the enamel',
  'composite-core': 'the core',
  'sealed-dentin': 'the enamel and the sealed surface',
};

/** How it looks once the acid is off. */
const RINSED: Readonly<Record<string, string>> = {
  dentin: 'Enamel frosty, dentin moist: blot, do not blast.',
  enamel: 'Frosty, dry.',
  'composite-core': 'Core clean and dry, dentin beside it not dried out.',
  'sealed-dentin': 'Enamel frosty, the seal clean and dry.',
};

/** The field and the prep, until the cement may be mixed. */
export const TOOTH = {
  isolate: {
    title: 'Isolate',
    todo: ({ unit, substrate }) =>
      substrate.of === 'abutment'
        ? 'Retractor, rolls and suction, a dam where it holds; cord or tape round the abutment where the margin is below the gum. Count them.'
        : unit.isolation === 'dam'
          ? 'Dam on, cord in if the margin is deep, tape on the neighbours. Count the cord.'
          : 'Cotton rolls and suction in, cord in if the margin is deep, tape on the neighbours. Count rolls and cord.',
    gate: 'Margin seen all round, dry.',
    why: 'Gingival fluid and saliva undo what is done from here on.',
    who: 'both',
    scope: 'unit',
    cautions: [],
  },
  pumice: {
    title: 'Pumice the prep',
    // Before a core is roughened too: remnants would be driven in, and tooth stands all round it. Abutments
    // have a cleaning of their own: pumice scratches them, and gets into the gum round an implant.
    todo: ({ substrate }) =>
      substrate.of === 'core'
        ? 'Pumice slurry over the core and the tooth below it, rinse.'
        : 'Pumice slurry over the prep, rinse.',
    gate: 'No film, no residue.',
    why: 'It takes off what the try-in left.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'abutment-clean': {
    title: 'Clean the abutment',
    todo: 'Rinse, wipe with alcohol on a pellet, dry. No abrasion in the mouth.',
    gate: 'No film, no blood; access plug in place.',
    why: 'Saliva on the abutment keeps primer and cement off it.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'base-abrade': {
    title: 'Abrade the titanium base',
    todo: ({ trade: { limits } }) =>
      `On a holder, screw channel and implant connection covered, in the box: ${limits.abutmentParticle.value} micrometre alumina, ${limits.abutmentPressure.value} bar, all of the bonding surface.`,
    gate: 'Evenly matt; connection untouched; dust blown off.',
    why: 'Machined titanium is too smooth to hold a crown. Only before it was ever in the mouth does this restore all of the bond (Burkhardt, about 2021).',
    who: 'assistant',
    scope: 'unit',
    cautions: ['abrasion-dust'],
  },
  'prep-roughen': {
    title: 'Roughen',
    todo: roughening,
    gate: 'Matt where it is to bond; dust rinsed off.',
    why: ({ unit }) =>
      unit.substrate === 'sealed-dentin'
        ? 'Cured adhesive has no free bonds left: an unreactivated seal is a step skipped.'
        : 'Old resin and metal bond on a fresh rough surface only.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['abrasion-dust'],
  },
  'dry-check': {
    title: 'Dry check',
    todo: ({ trade }) =>
      `Watch the field for ${trade.dwells['dry-check'].span.target} seconds: it stays dry.`,
    gate: 'Dry all the time, no bleeding.',
    why: 'Seepage shows now, or later in the bond.',
    who: 'both',
    scope: 'unit',
    cautions: [],
  },
  'tooth-etch': {
    title: 'Tooth etch',
    todo: ({ substrate, trade }) => substrate.how(trade.substrates.dentin.etch.max),
    gate: ({ unit }) =>
      `Gel on ${ETCHED[unit.substrate] ?? 'the enamel margin'}, nothing on the gum.`,
    why: ({ unit, trade }) =>
      unit.substrate === 'dentin'
        ? `Enamel needs the acid; dentin above ${trade.substrates.dentin.etch.max} seconds leaves collagen the adhesive does not fill.`
        : 'It cleans, and opens the surface for the adhesive.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['phosphoric-acid'],
  },
  'tooth-etch-rinse': {
    title: 'Rinse the tooth etch off',
    todo: 'Rinse; suction close.',
    gate: ({ unit }) => RINSED[unit.substrate] ?? 'Frosty, dry.',
    why: ({ unit }) =>
      unit.substrate === 'dentin'
        ? 'Acid and salts left behind weaken the adhesive; overdried dentin collapses.'
        : 'Acid and salts left behind weaken the adhesive.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['phosphoric-acid'],
  },
  'core-primer': {
    title: 'Alloy primer on the core',
    todo: ({ substrate }) =>
      substrate.monomer === 'sulfur'
        ? 'Sulfur-monomer primer on the metal; keep it off the tooth.'
        : 'Alloy primer on the metal; keep it off the tooth.',
    gate: 'All of the metal wetted.',
    why: 'Resin does not bind bare metal.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['resin-allergy'],
  },
  'abutment-primer': {
    title: 'Primer on the abutment',
    todo: 'Phosphate primer (10-MDP) on all of the bonding surface.',
    gate: ({ unit }) =>
      unit.substrate === 'titanium-base'
        ? 'All of it wetted, none in the screw channel.'
        : 'All of it wetted, none on the gum.',
    why: 'The phosphate monomer binds the oxide of titanium and of zirconia.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['resin-allergy'],
  },
  bond: {
    title: 'Bond on',
    todo: 'Scrub the adhesive in, all of the prep.',
    gate: 'Glossy all over.',
    why: 'The resin cement bonds to the adhesive, not to the tooth.',
    who: 'dentist',
    scope: 'unit',
    cautions: ['resin-allergy'],
  },
  'bond-thin': {
    title: 'Thin it',
    todo: 'Air until no ripple moves. Light it only if its instructions say so and it is thin.',
    gate: 'No ripple, no pool in the corners.',
    why: 'A pool that cures holds the crown up: an open margin.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'prep-dry': {
    title: 'Dry, no touch',
    todo: ({ substrate, clock }) => {
      if (substrate.of !== 'abutment' && clock.table.moisture === 'dry') {
        return 'Dry with pellets and a breath of air: dry, not desiccated.';
      }
      return substrate.of === 'core'
        ? 'Gentle oil-free air on the metal until nothing moves; the tooth below it blotted, never dried out; no touch.'
        : 'Gentle oil-free air until nothing moves; no touch.';
    },
    gate: 'Dry, matt or evenly glossed, no pool.',
    why: ({ substrate, clock }) =>
      substrate.of !== 'abutment' && clock.table.moisture === 'dry'
        ? 'Water thins the cement; desiccated dentin hurts later.'
        : 'Water or solvent left on it weakens cement and primer.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
  'prep-moist': {
    title: 'Moist, not wet',
    todo: ({ clock }) =>
      clock.table.moisture === 'damp'
        ? 'Blot: the dentin stays damp. Never dry it out.'
        : 'Blot: moist, not wet. No phosphoric acid on dentin.',
    gate: ({ clock }) =>
      clock.table.moisture === 'damp' ? 'Damp, no pool.' : 'Moist shine, no pool.',
    why: ({ clock }) =>
      clock.table.moisture === 'damp'
        ? 'Glass ionomer needs water to set; dried dentin hurts later.'
        : 'Its acid needs some water; phosphoric acid on dentin lowers its bond.',
    who: 'dentist',
    scope: 'unit',
    cautions: [],
  },
} satisfies Partial<Cards<StepId>>;
