import { BITE_AFTER_ONLY, glassCleanings, glassForbidden, networkCleanings } from './cleanings.ts';
import type { Material } from './material.ts';
import { judgement, memory, practice, published } from './number.ts';
import { acid, loss, seconds, strength, thick, toughness } from './ranges.ts';

const BY_ANALOGY =
  'by analogy with lithium disilicate (judgement; Klosa 2009 tested that, not this): not after blood or silicone';
const STRONGER = 'above 5 % strength falls (Jpn Dent Sci Rev 2024;60:198-210)';

/** What every silicate glass-ceramic that is etched has in common. */
const GLASS = {
  family: 'glass',
  etchable: true,
  texture: 'etched',
  conditioner: 'porcelain-etch',
  abrasion: null,
  primer: 'silane',
  monomer: null,
  phosphateCementPrimes: false,
  phosphateSpoils: false,
  porcelainOutside: true,
  connector: null,
} as const satisfies Partial<Material>;

const NO_BRIDGE = 'its strength is below what a bridge needs (ISO 6872 class 3 at least)';
const NO_IMPLANT = 'it is too weak for the unyielding support of an implant (judgement)';
const NO_WING = 'a wing of it breaks: metal, zirconia, alumina or lithium disilicate carry one';

/** Feldspathic porcelain (FEL). */
export const feldspathic: Material = {
  ...GLASS,
  code: 'FEL',
  name: 'feldspathic porcelain',
  isoClass: { value: 1, unit: 'class', ...memory('ISO6872'), note: '50 MPa and 0.7 at least' },
  flexural: strength(60, 120),
  toughness: toughness(0.7, 1.2),
  conditioning: {
    ...seconds(15, 60, 120, 'for 5 % acid; 60 and 120 s did not differ, 10 % beat 5 %'),
    apart: { min: published('HFM19'), target: published('BOR20'), max: published('BOR20') },
  },
  acidPercent: acid('9 to 10 % is also used on feldspathic porcelain'),
  cleanings: glassCleanings(
    `37 % phosphoric acid after saliva, ${BY_ANALOGY}.`,
    'Hydrofluoric acid opens the glass for silane and resin; after silicone or blood nothing less is shown to do.',
  ),
  biteBefore: BITE_AFTER_ONLY,
  attenuation: { high: loss(1.2), low: loss(1.2) },
  thickness: {
    crown: thick(1.5, 2, 'incisal edge of an anterior crown; not a posterior crown'),
    axial: thick(0.8, 1, 'margin'),
    inlay: thick(1.5, 1.5, 'isthmus and depth'),
    onlay: thick(2, 2, 'cusp'),
    veneer: thick(0.3, 0.5, '0.3 to 0.7'),
  },
  notFor: { bridge: NO_BRIDGE, 'resin-bonded-bridge': NO_WING, 'implant-crown': NO_IMPLANT },
  forbidden: glassForbidden(
    'Cleaning paste is not shown to restore feldspathic porcelain: phosphoric or hydrofluoric acid does.',
  ),
  notes: [],
};

/** Leucite-reinforced glass-ceramic (LEU). */
export const leucite: Material = {
  ...GLASS,
  code: 'LEU',
  name: 'leucite-reinforced glass-ceramic',
  isoClass: { value: 2, unit: 'class', ...memory('ISO6872'), note: '100 MPa and 1.0 at least' },
  flexural: strength(120, 180),
  toughness: toughness(1.1, 1.5),
  conditioning: {
    ...seconds(20, 60, 60, 'for 5 % acid'),
    apart: { min: published('BOR19') },
  },
  acidPercent: acid(STRONGER),
  cleanings: glassCleanings(
    `37 % phosphoric acid after saliva, ${BY_ANALOGY}.`,
    'Hydrofluoric acid opens the glass for silane and resin. In Aladag 2015 0.5 % sodium hypochlorite came near the control on leucite (19.2 against 20.4 MPa), cleaning paste (13.8) and water (10.9) did not.',
  ),
  biteBefore: BITE_AFTER_ONLY,
  attenuation: { high: loss(1.2), low: loss(1.2) },
  thickness: {
    crown: thick(2, 2, 'crown, occlusal'),
    axial: thick(1, 1.5, 'margin 1.0 to 1.5'),
    inlay: thick(1.5, 2, 'isthmus and depth 1.5 to 2.0'),
    onlay: thick(2, 2, 'cusp'),
    veneer: thick(0.5, 0.7, '0.5 to 0.7'),
  },
  notFor: { bridge: NO_BRIDGE, 'resin-bonded-bridge': NO_WING, 'implant-crown': NO_IMPLANT },
  forbidden: glassForbidden(
    'Cleaning paste left leucite at 13.8 against 20.4 MPa (Aladag 2015): phosphoric or hydrofluoric acid does.',
  ),
  notes: [],
};

/** Zirconia-reinforced lithium silicate (ZLS). */
export const lithiumSilicateZirconia: Material = {
  ...GLASS,
  code: 'ZLS',
  name: 'zirconia-reinforced lithium silicate',
  isoClass: {
    value: 2,
    unit: 'class',
    ...memory('ISO6872'),
    note: 'usual class 2 to 3: the lower is planned with, so it is always bonded',
  },
  flexural: strength(210, 420, '210 unfired'),
  toughness: toughness(2, 2.6),
  conditioning: {
    ...seconds(15, 25, 30, 'for 5 % acid; aim 20 to 30 s'),
    apart: { target: judgement },
  },
  acidPercent: acid(STRONGER),
  cleanings: glassCleanings(
    `37 % phosphoric acid after saliva, ${BY_ANALOGY}.`,
    'Hydrofluoric acid opens the glass for silane and resin; the zirconia in it is dissolved in the glass, not a surface to prime.',
  ),
  biteBefore: {
    allowed: true,
    how: 'Light taps only: the glass-ceramic has no support before it is bonded.',
  },
  attenuation: { high: loss(1.6), low: loss(1.6) },
  thickness: {
    crown: thick(1, 1.5, 'crown; 1.0 only where it is bonded'),
    axial: thick(1, 1, 'margin'),
    inlay: thick(1, 1.5, 'isthmus and depth 1.0 to 1.5'),
    onlay: thick(1.5, 1.5, 'cusp'),
    veneer: thick(0.5, 0.6, '0.5 to 0.6'),
  },
  notFor: { bridge: NO_BRIDGE, 'resin-bonded-bridge': NO_WING },
  forbidden: glassForbidden(
    'Cleaning paste is not shown to restore a lithium silicate: phosphoric or hydrofluoric acid does.',
  ),
  notes: [
    'Lithium silicate with zirconia dissolved in it is a glass-ceramic: hydrofluoric acid and silane, not a zirconia primer.',
  ],
};

/** Polymer-infiltrated ceramic network (PIC). */
export const polymerInfiltrated: Material = {
  ...GLASS,
  code: 'PIC',
  name: 'polymer-infiltrated ceramic network',
  isoClass: {
    value: 2,
    unit: 'class',
    ...practice,
    note: 'usual class; a hybrid with a ceramic network',
  },
  flexural: strength(140, 160),
  toughness: toughness(1, 1.5),
  conditioning: seconds(30, 60, 60, 'for 5 % acid'),
  acidPercent: acid(
    'hybrids weaken with stronger or longer acid (Jpn Dent Sci Rev 2024;60:198-210)',
  ),
  cleanings: networkCleanings(
    'Hydrofluoric acid, 30 to 60 s, opens the ceramic network (common practice). Abrasion is not preferred; its instructions may allow it at 1 bar or less.',
  ),
  porcelainOutside: false,
  biteBefore: BITE_AFTER_ONLY,
  attenuation: { high: loss(1.6), low: loss(1.6) },
  thickness: {
    crown: thick(1, 1.5, 'crown; 1.0 where it is bonded'),
    axial: thick(0.8, 1, 'margin 0.8 to 1.0'),
    inlay: thick(1, 1.5, 'isthmus and depth 1.0 to 1.5'),
    onlay: thick(1.5, 1.5, 'cusp'),
    veneer: thick(0.3, 0.5, '0.3 to 0.5'),
  },
  notFor: { bridge: NO_BRIDGE, 'resin-bonded-bridge': NO_WING },
  forbidden: [
    ...glassForbidden('Cleaning paste is not shown to restore a hybrid ceramic: etch it again.'),
    {
      step: 'acid-clean',
      why: 'Phosphoric acid with alcohol is used, with little to show for it: etch it again.',
      cause: 'phosphate-on-network',
    },
  ],
  notes: [],
};
