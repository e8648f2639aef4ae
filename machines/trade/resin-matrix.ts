import { BITE_FIRST, RESIN_CLEANINGS, RESIN_FORBIDDEN } from './cleanings.ts';
import type { Material } from './material.ts';
import { judgement } from './number.ts';
import { loss, NOZZLE, particle, pressure, seconds, strength, thick, toughness } from './ranges.ts';

/** Resin-matrix ceramic, particle-filled (RMC): outside ISO 6872. */
export const resinMatrix: Material = {
  code: 'RMC',
  name: 'resin-matrix ceramic (particle-filled)',
  family: 'resin',
  isoClass: null,
  flexural: strength(170, 250),
  toughness: toughness(0.8, 1.5),
  etchable: false,
  texture: 'abraded',
  conditioner: 'abrade',
  conditioning: {
    ...seconds(5, 8, 10, '5 to 10 s a surface; the aim is judgement'),
    apart: { target: judgement },
  },
  acidPercent: null,
  abrasion: {
    particle: particle(50, 50, 50, 'alumina'),
    pressure: pressure(1, 1.5, 2, '1.0 to 2.0 bar'),
    distance: NOZZLE,
  },
  primer: 'silane',
  monomer: null,
  phosphateCementPrimes: false,
  phosphateSpoils: false,
  cleanings: RESIN_CLEANINGS,
  porcelainOutside: false,
  biteBefore: BITE_FIRST,
  attenuation: { high: loss(1.6), low: loss(1.6) },
  thickness: {
    crown: thick(1, 1.5, 'crown; 1.0 where it is bonded'),
    axial: thick(0.8, 1, 'margin 0.8 to 1.0'),
    inlay: thick(1, 1.5, 'isthmus and depth 1.0 to 1.5'),
    onlay: thick(1.5, 1.5, 'cusp'),
    veneer: thick(0.3, 0.5, '0.3 to 0.5'),
  },
  connector: null,
  notFor: {
    bridge: 'it is a filled resin: no bridge',
    'resin-bonded-bridge': 'it is a filled resin: no wing',
  },
  forbidden: RESIN_FORBIDDEN,
  notes: [
    'Silane or a silane-containing universal adhesive on the inside: its instructions for use decide.',
    'A resin-matrix crown comes off more readily than ceramic where form is poor (judgement): many instructions allow inlays, onlays and veneers only.',
  ],
};
