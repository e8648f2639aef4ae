import { judgement, memory, practice } from './number.ts';
import type { Quantity, Span } from './number.ts';

/** What the shelf may hold at all. What a material wants inside these is in its own table. */
export const LIMITS = {
  abrasionParticle: {
    min: 25,
    target: 50,
    max: 50,
    unit: 'um',
    ...practice,
    note: 'alumina; above 50 um zirconia is damaged',
  },
  abrasionPressure: {
    min: 0.5,
    target: 2,
    max: 4,
    unit: 'bar',
    ...practice,
    note: '4 bar for base alloys only: zirconia takes 2.5 at most, 5Y 1.5; the least is judgement',
    apart: { min: judgement },
  },
  hydrofluoricAcid: {
    min: 4,
    target: 5,
    max: 10,
    unit: 'percent',
    ...practice,
    note: '5 % usual, 9 to 10 % also used; the least is judgement',
    apart: { min: judgement },
  },
  bleachingDelay: {
    min: 7,
    target: 14,
    max: null,
    unit: 'd',
    ...practice,
    note: 'a week at least (Ferraz 2018; PMC3198552), two to three are safer',
    apart: { min: { mark: 'published', source: 'Ferraz18' } },
  },
  eugenolDelay: {
    value: 7,
    unit: 'd',
    ...practice,
    note: 'since a eugenol provisional was placed, or mechanical removal; evidence mixed',
  },
  marginBelowGum: {
    value: 1,
    unit: 'mm',
    ...practice,
    note: 'of an abutment: deeper, and residual cement is out of reach',
  },
  roughness: {
    value: 0.2,
    unit: 'um',
    ...memory('Bollen97'),
    note: 'Ra of a polished surface, at most: above it plaque gathers',
  },
  unitsAMix: { value: 2, unit: 'ratio', ...practice, note: 'crowns to one mix, at most' },
  touchCure: {
    value: 0.5,
    unit: 'ratio',
    ...judgement,
    note: 'of the working time is left when primer or adhesive speeds the cement on contact',
  },
  lightCureThickness: {
    min: 1,
    target: 1,
    max: 1.5,
    unit: 'mm',
    ...practice,
    note: 'translucent veneer or inlay under a light-cure resin, at most 1.0 to 1.5',
  },
} as const satisfies Readonly<Record<string, Quantity | Span>>;
