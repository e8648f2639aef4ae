import { glassCleanings, glassForbidden } from './cleanings.ts';
import type { Material } from './material.ts';
import { memory, practice, published } from './number.ts';
import { acid, area, loss, strength, thick, toughness } from './ranges.ts';

/** Lithium disilicate glass-ceramic (LDS). */
export const lithiumDisilicate: Material = {
  code: 'LDS',
  name: 'lithium disilicate',
  family: 'glass',
  isoClass: {
    value: 3,
    unit: 'class',
    ...memory('ISO6872'),
    note: '300 MPa and 2.0 MPa.m^0.5 at least; adhesive or conventional cement',
  },
  flexural: strength(360, 500, 'about 360 milled (Ceramics 2021, vol. 4 issue 3)'),
  toughness: toughness(2, 2.8),
  etchable: true,
  texture: 'etched',
  conditioner: 'porcelain-etch',
  conditioning: {
    min: 15,
    target: 20,
    max: 30,
    unit: 's',
    ...practice,
    note: 'for 5 % acid; 5 s bonded less than 15 s or more; over-etching collapses the crystal network',
    apart: { min: published('HFM19'), target: published('BOR19') },
  },
  acidPercent: acid('above 5 % strength falls (Jpn Dent Sci Rev 2024;60:198-210)'),
  abrasion: null,
  primer: 'silane',
  monomer: null,
  phosphateCementPrimes: false,
  phosphateSpoils: false,
  cleanings: glassCleanings(
    '37 % phosphoric acid cleans an etched glass-ceramic after saliva as well as re-etching: 37.9 to 49.5 MPa at 150 days (Klosa 2009). Not after silicone.',
    'Hydrofluoric acid dissolves the glass and leaves crystals to hold the resin; after silicone only this restores the bond: 44.5 to 50.3 against 0.3 to 13.5 MPa with phosphoric acid (Klosa 2009).',
  ),
  porcelainOutside: true,
  biteBefore: {
    allowed: true,
    how: 'Light taps only: the glass-ceramic has no support before it is bonded.',
  },
  attenuation: { high: loss(1.3), low: loss(1.6) },
  thickness: {
    crown: thick(1, 1.5, 'crown; 1.0 only where it is bonded'),
    axial: thick(1, 1, 'crown, margin'),
    inlay: thick(1, 1.5, 'isthmus and depth 1.0 to 1.5'),
    onlay: thick(1, 1.5, 'cusp 1.0 to 1.5'),
    veneer: thick(0.3, 0.6, '0.3 to 0.6'),
  },
  connector: {
    anterior: area(16, 'three units to the second premolar'),
    posterior: area(16, 'three units to the second premolar'),
    twoPontics: null,
  },
  notFor: {},
  forbidden: glassForbidden(
    'Cleaning paste did not restore lithium disilicate (Aladag 2015): phosphoric or hydrofluoric acid does.',
  ),
  notes: [],
};
