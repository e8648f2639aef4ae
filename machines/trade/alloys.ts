import { ALLOY_CLEANINGS, ALLOY_FORBIDDEN, BITE_FIRST } from './cleanings.ts';
import type { Material } from './material.ts';
import { judgement, published } from './number.ts';
import { NOZZLE, particle, pressure, seconds, thick } from './ranges.ts';

const fullMetal: Material['thickness'] = {
  crown: thick(1, 1.5, '1.0 over a non-functional, 1.5 over a functional cusp'),
  axial: thick(0.5, 0.5, 'chamfer'),
  inlay: thick(1, 1, 'isthmus and depth'),
  onlay: thick(1, 1, 'cusp'),
  veneer: null,
};

const underPorcelain: Material['thickness'] = {
  crown: thick(1.5, 2, 'metal 0.3 to 0.5 and porcelain'),
  axial: thick(1.2, 1.5, 'facial margin 1.2 to 1.5'),
  inlay: null,
  onlay: null,
  veneer: null,
};

/** What every alloy has in common. */
const METAL = {
  family: 'metal',
  isoClass: null,
  toughness: null,
  etchable: false,
  texture: 'abraded',
  conditioner: 'abrade',
  conditioning: {
    ...seconds(10, 15, 20, '10 to 20 s; the aim is the middle'),
    apart: { target: judgement },
  },
  acidPercent: null,
  primer: 'metal-primer',
  phosphateSpoils: false,
  cleanings: ALLOY_CLEANINGS,
  porcelainOutside: false,
  biteBefore: BITE_FIRST,
  attenuation: null,
  thickness: fullMetal,
  connector: null,
  notFor: { veneer: 'no light and no colour: a veneer is ceramic or resin' },
  forbidden: ALLOY_FORBIDDEN,
  notes: ['No light passes metal: light reaches the margins only.'],
} as const satisfies Partial<Material>;

/** Noble alloy (MN). */
export const nobleMetal: Material = {
  ...METAL,
  code: 'MN',
  name: 'noble alloy',
  flexural: {
    min: 80,
    target: 270,
    max: 500,
    unit: 'MPa',
    ...published('ISO22674'),
    note: '0.2 % proof stress by type: 80, 180, 270, 360, 500; the aim stands for type 3, crowns',
    apart: { target: judgement },
  },
  abrasion: {
    particle: particle(50, 50, 50, 'alumina'),
    pressure: pressure(2, 2.5, 3, '2 to 3 bar; the aim is the middle'),
    distance: NOZZLE,
  },
  monomer: 'sulfur',
  phosphateCementPrimes: false,
  forbidden: [
    ...ALLOY_FORBIDDEN,
    {
      step: 'zirconia-primer',
      why: 'Noble metal has no oxide for 10-MDP: a sulfur monomer binds it.',
      cause: 'phosphate-primer-on-noble',
    },
  ],
  notes: [
    ...METAL.notes,
    'Noble alloy: a thione or thiophosphate (sulfur) monomer, with or without 10-MDP; or tin-plated or silica-coated by the lab.',
  ],
};

/** Base alloy: cobalt-chromium, nickel-chromium (MB). */
export const baseMetal: Material = {
  ...METAL,
  code: 'MB',
  name: 'base-metal alloy (Co-Cr, Ni-Cr)',
  flexural: {
    min: 360,
    target: 500,
    max: null,
    unit: 'MPa',
    ...published('ISO22674'),
    note: '0.2 % proof stress, types 4 and 5',
    apart: { min: judgement, target: judgement },
  },
  abrasion: {
    particle: particle(50, 50, 50, 'alumina'),
    pressure: pressure(2, 3, 4, '2 to 4 bar; the aim is the middle'),
    distance: NOZZLE,
  },
  monomer: 'phosphate',
  phosphateCementPrimes: true,
  notes: [...METAL.notes, 'Nickel: ask for a metal allergy before a nickel-chromium alloy.'],
};

/** Titanium (MB). */
export const titanium: Material = {
  ...baseMetal,
  code: 'Ti',
  name: 'titanium',
  flexural: null,
  notes: METAL.notes,
};

const fused = (metal: Material, name: string): Material => ({
  ...metal,
  code: `MC-${metal.code}`,
  name,
  porcelainOutside: true,
  thickness: underPorcelain,
  notFor: {
    veneer: 'metal and porcelain together are too thick and too opaque',
    inlay: 'metal and porcelain do not fit into an inlay',
    onlay: 'no minimum is known for an onlay of it',
  },
  forbidden: [
    {
      step: 'porcelain-etch',
      why: 'Hydrofluoric acid inside corrodes the metal, and dulls the glaze outside.',
      cause: 'etch-corrodes-metal',
    },
    ...metal.forbidden.filter(({ step }) => step !== 'porcelain-etch'),
  ],
  notes: [...metal.notes, 'Porcelain outside: no abrasion and no acid on it.'],
});

/** Porcelain fused to noble alloy. */
export const metalCeramicNoble: Material = fused(nobleMetal, 'metal-ceramic on noble alloy');
/** Porcelain fused to base alloy. */
export const metalCeramicBase: Material = fused(baseMetal, 'metal-ceramic on base-metal alloy');
