import { BITE_FIRST, OXIDE_CLEANINGS, OXIDE_FORBIDDEN } from './cleanings.ts';
import type { Material } from './material.ts';
import { memory } from './number.ts';
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

/** Monolithic 3Y zirconia (Z3). */
export const zirconia3y: Material = {
  code: 'Z3',
  name: 'monolithic 3Y zirconia',
  family: 'oxide',
  isoClass: {
    value: 5,
    unit: 'class',
    ...memory('ISO6872'),
    note: '800 MPa and 5.0 MPa.m^0.5 at least; usual class by practice',
  },
  flexural: strength(900, 1200),
  toughness: toughness(4, 6),
  etchable: false,
  texture: 'abraded',
  conditioner: 'abrade',
  conditioning: seconds(
    10,
    15,
    20,
    'about 10 s for each square centimetre (tested at 2 bar, 10 mm: Materials 2021;14:610)',
  ),
  acidPercent: null,
  abrasion: {
    particle: particle(
      25,
      50,
      50,
      'alumina; one paper prefers 110 um for 3Y (Materials 2021;14:610): the 50 um habit is kept',
    ),
    pressure: pressure(1.5, 2, 2.5, 'above 2.5 bar or 50 um: damage, phase change'),
    distance: NOZZLE,
  },
  primer: 'zirconia-primer',
  monomer: null,
  phosphateCementPrimes: true,
  phosphateSpoils: true,
  cleanings: OXIDE_CLEANINGS,
  porcelainOutside: false,
  biteBefore: BITE_FIRST,
  attenuation: { high: loss(2), low: loss(2) },
  thickness: {
    crown: thick(0.5, 1, 'crown, occlusal 0.5 to 1.0'),
    axial: thick(0.4, 0.6, 'crown, margin'),
    inlay: null,
    onlay: thick(1, 1, 'cusp of an onlay'),
    veneer: null,
  },
  connector: {
    anterior: area(7, 'anterior connector'),
    posterior: area(9, 'posterior connector'),
    twoPontics: area(12, 'two pontics side by side'),
  },
  notFor: {
    veneer: 'too opaque and not etchable: no minimum is known for a veneer of it',
    inlay: 'no minimum is known for an inlay of it, and nothing but the primer holds it',
  },
  forbidden: OXIDE_FORBIDDEN,
  notes: [],
};
