import type { Material } from './material.ts';
import { computed, judgement, memory, practice } from './number.ts';

/** Monolithic 3Y zirconia (Z3). */
export const zirconia3y: Material = {
  code: 'Z3',
  name: 'monolithic 3Y zirconia',
  isoClass: {
    value: 5,
    unit: 'class',
    ...memory('ISO6872'),
    note: '800 MPa and 5.0 MPa.m^0.5 at least; usual class by practice',
  },
  flexural: {
    min: 900,
    target: 1050,
    max: 1200,
    unit: 'MPa',
    ...practice,
    note: 'textbook range; the aim is its middle',
    apart: { target: computed },
  },
  toughness: {
    min: 4,
    target: 5,
    max: 6,
    unit: 'MPa.m^0.5',
    ...practice,
    note: 'textbook range; the aim is its middle',
    apart: { target: computed },
  },
  etchable: false,
  texture: 'abraded',
  conditioner: 'abrade',
  conditioning: {
    min: 10,
    target: 15,
    max: 20,
    unit: 's',
    ...practice,
    note: 'about 10 s for each square centimetre (tested at 2 bar, 10 mm: Materials 2021;14:610)',
  },
  acidPercent: null,
  abrasion: {
    particle: {
      value: 50,
      unit: 'um',
      ...practice,
      note: 'alumina; one paper prefers 110 um for 3Y (Materials 2021;14:610): the 50 um habit is kept',
    },
    pressure: {
      min: 1.5,
      target: 2,
      max: 2.5,
      unit: 'bar',
      ...practice,
      note: 'above 2.5 bar or 50 um: damage, phase change',
    },
    distance: { value: 10, unit: 'mm', ...practice, note: 'nozzle to surface' },
  },
  primer: 'zirconia-primer',
  phosphateCementPrimes: true,
  cleanings: [
    {
      step: 'cleaner',
      rinse: 'cleaner-rinse',
      removes: ['saliva', 'blood', 'glove', 'drop', 'try-in-paste', 'acid'],
      textures: false,
      why: 'The alkaline zirconia suspension takes the saliva phosphate off. Equal to uncontaminated in Feitosa 2015 and Kim 2015, not shown equal in Angkasith 2016.',
    },
    {
      step: 'abrade',
      rinse: null,
      removes: ['saliva', 'blood', 'glove', 'drop', 'fit-paste', 'try-in-paste', 'cement', 'acid'],
      textures: true,
      why: 'Alumina takes the contaminated layer off and gives a fresh rough surface; the most effective after saliva (Yang 2008) and the choice after silicone (method of Quaas 2007).',
    },
  ],
  biteBefore: {
    allowed: true,
    how: 'Bite marked before cementing: foil, centric, then excursions.',
  },
  attenuation: {
    high: {
      value: 2.0,
      unit: '1/mm',
      ...judgement,
      note: 'lies in the 1.20 to 2.02 worked back from 0.5 mm plates (Pacheco 2019)',
    },
    low: {
      value: 2.0,
      unit: '1/mm',
      ...judgement,
      note: 'lies in the 1.20 to 2.02 worked back from 0.5 mm plates (Pacheco 2019)',
    },
  },
  thickness: {
    occlusal: { min: 0.5, target: 1, max: null, unit: 'mm', ...practice, note: 'crown' },
    axial: { min: 0.4, target: 0.6, max: null, unit: 'mm', ...practice, note: 'crown, margin' },
  },
  forbidden: [
    {
      step: 'porcelain-etch',
      why: 'No glass phase to etch: false security and a needless hazard.',
    },
    { step: 'silane', why: 'No silica to bind: silane alone never counts as a zirconia primer.' },
    {
      step: 'acid-clean',
      why: 'Phosphate takes the sites the phosphate primer needs; worst of four in Feitosa 2015.',
    },
  ],
};
