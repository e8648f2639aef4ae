import type { Substrate as SubstrateId } from '../contract/index.ts';
import { judgement, practice } from './number.ts';
import type { Span } from './number.ts';

/** What a unit is cemented to, and how its surface is made ready. */
export interface Substrate {
  readonly name: string;
  /** A tooth, a core built on it, or an abutment of an implant. */
  readonly of: 'tooth' | 'core' | 'abutment';
  /** How long phosphoric acid (35 to 37 %) may stay on it; null where it has no business. */
  readonly etch: Span | null;
  readonly rinse: Span;
  /** How to etch it for an adhesive resin with a universal adhesive; told how long dentin takes acid, seconds. */
  readonly how: (dentinS: number) => string;
  /** Its surface is roughened or reactivated first. */
  readonly roughen: boolean;
  /** The primer under a resin cement; null: none of its own. */
  readonly primer: 'core-primer' | 'abutment-primer' | null;
  /** What a metal primer for it must hold; null where any or none will do. */
  readonly monomer: 'sulfur' | 'phosphate' | null;
  /** A cement that carries phosphate takes the primer's place. */
  readonly phosphateCementPrimes: boolean;
  readonly note: string | null;
}

const NO_ACID_RINSE = {
  min: 10,
  target: 15,
  max: null,
  unit: 's',
  ...practice,
  note: 'rinse after cleaning',
} as const satisfies Span;

const METAL_CORE = {
  of: 'core',
  etch: null,
  rinse: NO_ACID_RINSE,
  how: () => '',
  primer: 'core-primer',
  note: 'No hydrofluoric acid near a metal core. The tooth below it: adhesive in self-etch mode under an adhesive resin, blotted and never dried out under the others.',
} as const satisfies Partial<Substrate>;

const ABUTMENT = {
  of: 'abutment',
  etch: null,
  rinse: NO_ACID_RINSE,
  how: () => '',
  roughen: false,
  primer: 'abutment-primer',
  monomer: null,
  phosphateCementPrimes: true,
} as const satisfies Partial<Substrate>;

const TOOTH = {
  of: 'tooth',
  roughen: false,
  primer: null,
  monomer: null,
  phosphateCementPrimes: false,
} as const satisfies Partial<Substrate>;

/** Dentin, which has a most for acid whatever else is known. */
export interface Dentin extends Substrate {
  readonly etch: Span & { readonly max: number };
}
/** The substrates by their ids. */
export type Substrates = Readonly<Record<Exclude<SubstrateId, 'dentin'>, Substrate>> & {
  readonly dentin: Dentin;
};

/** Every substrate a unit can be planned on. */
export const SUBSTRATE_TABLE: Substrates = {
  dentin: {
    ...TOOTH,
    name: 'dentin',
    etch: {
      min: 10,
      target: 12,
      max: 15,
      unit: 's',
      ...judgement,
      note: 'never above 15 s on dentin; called at 12 s so that the rinse is on by 15; the least is judgement',
      apart: { max: practice },
    },
    rinse: {
      min: 10,
      target: 15,
      max: null,
      unit: 's',
      ...practice,
      note: 'then leave it moist, blotted: overdried collagen collapses',
    },
    how: (dentinS) =>
      `Acid on the enamel margin; what runs on to dentin is off within ${dentinS} seconds.`,
    note: null,
  },
  enamel: {
    ...TOOTH,
    name: 'enamel',
    etch: {
      min: 15,
      target: 20,
      max: 30,
      unit: 's',
      ...practice,
      note: 'cut enamel; the aim inside the window is judgement',
      apart: { target: judgement },
    },
    rinse: { min: 15, target: 15, max: null, unit: 's', ...practice, note: 'then dry to frost' },
    how: () => 'Acid on all the enamel.',
    note: null,
  },
  'composite-core': {
    name: 'composite core',
    of: 'core',
    roughen: true,
    primer: null,
    monomer: null,
    phosphateCementPrimes: false,
    etch: {
      min: 15,
      target: 15,
      max: 30,
      unit: 's',
      ...practice,
      note: 'cleans the core; the most is judgement, and dentin at the margin takes less',
      apart: { max: judgement },
    },
    rinse: { min: 15, target: 15, max: null, unit: 's', ...practice, note: 'then dry' },
    how: (dentinS) =>
      `Acid on the core to clean it; keep it off dentin at the margin, or off again within ${dentinS} seconds.`,
    note: 'Composite core: roughened and cleaned with phosphoric acid; silane on the core before the adhesive is optional.',
  },
  'sealed-dentin': {
    ...TOOTH,
    name: 'sealed dentin (immediate dentin sealing)',
    etch: {
      min: 15,
      target: 20,
      max: 30,
      unit: 's',
      ...practice,
      note: 'on enamel and the sealed surface, which it cleans; no bare dentin; the aim is judgement',
      apart: { target: judgement },
    },
    rinse: { min: 15, target: 15, max: null, unit: 's', ...practice, note: 'then dry' },
    how: () =>
      'Acid on the enamel and over the sealed surface, which it cleans; none on bare dentin.',
    roughen: true,
    note: 'Sealed dentin (Magne 2005, from memory): a surface that is not reactivated is a step skipped. Adhesive left uncured or thin. No silicone on it without a lubricant.',
  },
  'amalgam-core': {
    ...METAL_CORE,
    name: 'amalgam core',
    roughen: true,
    monomer: null,
    phosphateCementPrimes: false,
  },
  'noble-metal-core': {
    ...METAL_CORE,
    name: 'noble-metal post and core',
    roughen: true,
    monomer: 'sulfur',
    phosphateCementPrimes: false,
  },
  'base-metal-core': {
    ...METAL_CORE,
    name: 'base-metal post and core',
    roughen: true,
    monomer: 'phosphate',
    phosphateCementPrimes: true,
  },
  'titanium-abutment': {
    ...ABUTMENT,
    name: 'titanium abutment',
    note: 'Titanium abutment: abraded outside the mouth only, before it goes in. A radiopaque cement.',
  },
  'zirconia-abutment': {
    ...ABUTMENT,
    name: 'zirconia abutment',
    note: 'Zirconia abutment: abraded outside the mouth only, before it goes in. A radiopaque cement.',
  },
  'titanium-base': {
    ...ABUTMENT,
    name: 'titanium base',
    note: 'Titanium base: bonded outside the mouth before any try-in. Once saliva has been on it, water, alcohol, zirconia suspension and abrading again were all worse than clean (Burkhardt, about 2021). An opaque self-cure resin hides the metal.',
  },
};
