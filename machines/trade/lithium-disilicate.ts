import type { Material } from './material.ts';
import { computed, judgement, memory, practice, published } from './number.ts';

/** Lithium disilicate glass-ceramic (LDS). */
export const lithiumDisilicate: Material = {
  code: 'LDS',
  name: 'lithium disilicate',
  isoClass: {
    value: 3,
    unit: 'class',
    ...memory('ISO6872'),
    note: '300 MPa and 2.0 MPa.m^0.5 at least; adhesive or conventional cement',
  },
  flexural: {
    min: 360,
    target: 430,
    max: 500,
    unit: 'MPa',
    ...practice,
    note: 'textbook range; about 360 milled (Ceramics 2021, vol. 4 issue 3); the aim is its middle',
    apart: { target: computed },
  },
  toughness: {
    min: 2,
    target: 2.4,
    max: 2.8,
    unit: 'MPa.m^0.5',
    ...practice,
    note: 'textbook range; the aim is its middle',
    apart: { target: computed },
  },
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
  acidPercent: {
    value: 5,
    unit: 'percent',
    ...practice,
    note: 'above 5 % strength falls (Jpn Dent Sci Rev 2024;60:198-210)',
  },
  abrasion: null,
  primer: 'silane',
  phosphateCementPrimes: false,
  cleanings: [
    {
      step: 'acid-clean',
      rinse: 'acid-clean-rinse',
      removes: ['saliva', 'glove', 'drop', 'try-in-paste', 'acid'],
      textures: false,
      why: '37 % phosphoric acid cleans an etched glass-ceramic after saliva as well as re-etching: 37.9 to 49.5 MPa at 150 days (Klosa 2009). Not after silicone.',
    },
    {
      step: 'porcelain-etch',
      rinse: 'porcelain-etch-rinse',
      removes: ['saliva', 'blood', 'glove', 'drop', 'fit-paste', 'try-in-paste', 'cement', 'acid'],
      textures: true,
      why: 'Hydrofluoric acid dissolves the glass and leaves crystals to hold the resin; after silicone only this restores the bond: 44.5 to 50.3 against 0.3 to 13.5 MPa with phosphoric acid (Klosa 2009).',
    },
  ],
  biteBefore: {
    allowed: true,
    how: 'Light taps only: the glass-ceramic has no support before it is bonded.',
  },
  attenuation: {
    high: {
      value: 1.3,
      unit: '1/mm',
      ...judgement,
      note: 'lies in the 1.20 to 2.02 worked back from 0.5 mm plates (Pacheco 2019)',
    },
    low: {
      value: 1.6,
      unit: '1/mm',
      ...judgement,
      note: 'lies in the 1.20 to 2.02 worked back from 0.5 mm plates (Pacheco 2019)',
    },
  },
  thickness: {
    occlusal: {
      min: 1,
      target: 1.5,
      max: null,
      unit: 'mm',
      ...practice,
      note: 'crown; 1.0 only where it is bonded',
    },
    axial: { min: 1, target: 1, max: null, unit: 'mm', ...practice, note: 'crown, margin' },
  },
  forbidden: [
    {
      step: 'abrade',
      why: 'Alumina at zirconia pressures chips and weakens a glass-ceramic: etch it instead.',
    },
    { step: 'zirconia-primer', why: 'A phosphate primer does not bind glass: silane does.' },
    {
      step: 'cleaner',
      why: 'Cleaning paste did not restore lithium disilicate (Aladag 2015): phosphoric or hydrofluoric acid does.',
    },
  ],
};
