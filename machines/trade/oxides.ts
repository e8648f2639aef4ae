import { OXIDE_FORBIDDEN } from './cleanings.ts';
import type { Material } from './material.ts';
import { judgement, memory, published } from './number.ts';
import {
  area,
  loss,
  NOZZLE,
  particle,
  pressure,
  seconds,
  strength,
  thick,
  toughness,
} from './ranges.ts';
import { zirconia3y } from './zirconia-3y.ts';

const HABIT = 'the 50 um habit is kept';

/** Monolithic 4Y zirconia (Z4). */
export const zirconia4y: Material = {
  ...zirconia3y,
  code: 'Z4',
  name: 'monolithic 4Y zirconia',
  isoClass: {
    value: 4,
    unit: 'class',
    ...memory('ISO6872'),
    note: 'usual class 4 to 5: the lower is planned with',
  },
  flexural: strength(700, 1000),
  toughness: toughness(3, 4),
  conditioning: seconds(10, 12, 15, '10 to 15 s; about 10 s for each square centimetre'),
  abrasion: {
    particle: particle(
      25,
      50,
      50,
      `alumina; one paper prefers 90 um for 4Y (Materials 2021;14:610): ${HABIT}`,
    ),
    pressure: pressure(1, 1.5, 2, '1.0 to 2.0 bar'),
    distance: NOZZLE,
  },
  attenuation: { high: loss(1.8), low: loss(1.8) },
  thickness: {
    crown: thick(0.8, 1, 'crown, occlusal 0.8 to 1.0'),
    axial: thick(0.6, 0.8, 'margin 0.6 to 0.8'),
    inlay: null,
    onlay: thick(1, 1.5, 'cusp 1.0 to 1.5'),
    veneer: null,
  },
  connector: {
    anterior: area(9, 'anterior connector'),
    posterior: area(12, 'posterior connector'),
    twoPontics: null,
  },
  forbidden: OXIDE_FORBIDDEN,
};

/** Monolithic 5Y zirconia (Z5). */
export const zirconia5y: Material = {
  ...zirconia3y,
  code: 'Z5',
  name: 'monolithic 5Y zirconia',
  isoClass: {
    value: 3,
    unit: 'class',
    ...memory('ISO6872'),
    note: 'usual class 3 to 4, toughness is often the limit: the lower is planned with',
  },
  flexural: strength(450, 750),
  toughness: toughness(2.2, 3),
  conditioning: {
    ...seconds(8, 10, 12, '10 s; it has no phase change to toughen it'),
    apart: { min: judgement, max: judgement },
  },
  abrasion: {
    particle: {
      ...particle(25, 25, 50, 'alumina; 25 um recommended for 5Y, 50 at most'),
      apart: { target: published('ZAbr21') },
    },
    pressure: pressure(1, 1.2, 1.5, 'above 1.5 bar: cracks that nothing closes'),
    distance: NOZZLE,
  },
  attenuation: { high: loss(1.6), low: loss(1.6) },
  thickness: {
    crown: thick(1, 1.2, 'crown, occlusal 1.0 to 1.2'),
    axial: thick(0.8, 1, 'margin 0.8 to 1.0'),
    inlay: null,
    onlay: thick(1, 1.5, 'cusp 1.0 to 1.5'),
    veneer: thick(0.5, 0.5, 'veneer'),
  },
  connector: {
    anterior: area(12, 'three units to the second premolar'),
    posterior: area(12, 'three units to the second premolar'),
    twoPontics: null,
  },
  notFor: {
    inlay: 'no minimum is known for an inlay of it, and nothing but the primer holds it',
    'resin-bonded-bridge':
      'its toughness is too low for a wing (judgement): 3Y zirconia carries one',
  },
};

/** Zirconia frame with veneering porcelain (ZV). */
export const zirconiaVeneered: Material = {
  ...zirconia3y,
  code: 'ZV',
  name: 'veneered zirconia frame',
  isoClass: {
    value: 5,
    unit: 'class',
    ...memory('ISO6872'),
    note: 'the frame; the porcelain on it is class 1b',
  },
  flexural: strength(900, 1200, 'the frame as 3Y zirconia; the porcelain 70 to 110'),
  toughness: toughness(4, 6, 'the frame; the porcelain about 0.8'),
  porcelainOutside: true,
  attenuation: { high: loss(2.5), low: loss(2.5) },
  thickness: {
    crown: thick(
      1.5,
      2,
      'frame 0.5 to 0.7 and porcelain 0.7 to 1.5, unsupported porcelain 2 at most',
    ),
    axial: thick(1.2, 1.5, 'margin 1.2 to 1.5'),
    inlay: null,
    onlay: null,
    veneer: null,
  },
  notFor: {
    veneer: 'frame and porcelain together are too thick and too opaque',
    inlay: 'frame and porcelain do not fit into an inlay',
    onlay: 'no minimum is known for an onlay of it',
    'resin-bonded-bridge':
      'a veneered wing chips: a bare zirconia wing is planned as 3Y zirconia, veneered pontic or not',
  },
  notes: [
    'The porcelain outside is a feldspathic glass: wax or a silicone cap over it, no abrasion and no hydrofluoric acid on it.',
  ],
};

/** Densely sintered alumina (AL). */
export const alumina: Material = {
  ...zirconia3y,
  code: 'AL',
  name: 'densely sintered alumina',
  isoClass: {
    value: 3,
    unit: 'class',
    ...memory('ISO6872'),
    note: 'usual class 3 to 4: the lower is planned with',
  },
  flexural: strength(400, 650),
  toughness: toughness(3, 4.5),
  conditioning: {
    ...seconds(13, 14, 15, '13 to 15 s; without abrasion every specimen came off by 150 days'),
    apart: { target: published('Hummel04') },
  },
  abrasion: {
    particle: particle(50, 50, 50, 'alumina'),
    pressure: pressure(2, 2.5, 2.5, '2.5 bar; the least is judgement'),
    distance: NOZZLE,
  },
  porcelainOutside: true,
  attenuation: { high: loss(2.5), low: loss(2.5) },
  thickness: {
    crown: {
      ...thick(1.5, 2, 'core and porcelain, as a veneered zirconia frame; no figure of its own'),
      ...judgement,
    },
    axial: { ...thick(1.2, 1.5, 'as a veneered zirconia frame'), ...judgement },
    inlay: null,
    onlay: null,
    veneer: null,
  },
  connector: null,
  notFor: {
    veneer: 'too opaque and not etchable',
    inlay: 'no minimum is known for an inlay of it',
    onlay: 'no minimum is known for an onlay of it',
  },
  forbidden: OXIDE_FORBIDDEN.map((each) =>
    each.step === 'silane'
      ? {
          ...each,
          why: 'No silica to bind, unless the inside was silica-coated (30 micrometre, 2 to 2.8 bar, 10 to 15 s): then its instructions lead.',
        }
      : each,
  ),
  notes: [
    'Alumina without abrasion does not last: all unabraded specimens had come off by 150 days (Hummel 2004).',
  ],
};

/** Glass-infiltrated alumina (AL-G). */
export const aluminaInfiltrated: Material = {
  ...alumina,
  code: 'AL-G',
  name: 'glass-infiltrated alumina',
  forbidden: [
    {
      step: 'porcelain-etch',
      why: 'Hydrofluoric acid dissolves the glass that was infiltrated: the core loses its strength.',
      cause: 'etch-dissolves-infiltrate',
    },
    ...alumina.forbidden.filter(({ step }) => step !== 'porcelain-etch'),
  ],
  notes: [
    ...alumina.notes,
    'Infiltrated with glass, and still never etched: hydrofluoric acid dissolves what holds it together.',
  ],
};
