/**
 * What each material needs and what takes what off it, written out a second time from the trade
 * reference (1C, 1D, 1E and section 2), without the tables the machines read.
 */
import type { CaseFile, Contaminant, Material, StepId } from '../../machines/contract/index.ts';

type Unit = CaseFile['units'][number];
/** Etched glass, ceramic in a polymer network, particle-filled resin, oxide ceramic, noble and base alloys. */
type Family = 'glass' | 'network' | 'resin' | 'oxide' | 'noble' | 'base';

const FAMILY: Readonly<Record<Material, Family>> = {
  feldspathic: 'glass',
  leucite: 'glass',
  'lithium-disilicate': 'glass',
  'lithium-silicate-zirconia': 'glass',
  'polymer-infiltrated': 'network',
  'resin-matrix': 'resin',
  'zirconia-3y': 'oxide',
  'zirconia-4y': 'oxide',
  'zirconia-5y': 'oxide',
  'zirconia-veneered': 'oxide',
  alumina: 'oxide',
  'alumina-infiltrated': 'oxide',
  'noble-metal': 'noble',
  'base-metal': 'base',
  titanium: 'base',
  'metal-ceramic-noble': 'noble',
  'metal-ceramic-base': 'base',
};

export const familyOf = ({ material }: Pick<Unit, 'material'>): Family => FAMILY[material];

/** 1C: the step that gives the inside its texture. */
export function texturing(unit: Pick<Unit, 'material'>): 'porcelain-etch' | 'abrade' {
  const family = familyOf(unit);
  return family === 'glass' || family === 'network' ? 'porcelain-etch' : 'abrade';
}

/** 1C: the primer; of noble alloys no phosphate cement takes its place. */
const PRIMER: Readonly<Record<Family, StepId>> = {
  glass: 'silane',
  network: 'silane',
  resin: 'silane',
  oxide: 'zirconia-primer',
  noble: 'metal-primer',
  base: 'metal-primer',
};
/** 4B: cements that a primer means nothing to. */
const NO_PRIMER = [
  'zinc-phosphate',
  'glass-ionomer',
  'resin-modified-glass-ionomer',
  'calcium-aluminate',
];

/** Which primer the material and the cement need; null when none. */
export function primerFor(unit: Unit, shelf: CaseFile['shelf']): StepId | null {
  const cement = shelf.cements.find(({ label }) => label === unit.cement);
  if (cement !== undefined && NO_PRIMER.includes(cement.class)) return null;
  const family = familyOf(unit);
  const own = family === 'oxide' || family === 'base';
  return own && cement?.carriesPhosphate === true ? null : PRIMER[family];
}

/** 2: what lies on a surface, and is dealt with as saliva. */
const SURFACE: readonly Contaminant[] = [
  'saliva',
  'glove',
  'drop',
  'try-in-paste',
  'acid',
  'glove-powder',
];

/** 1D and 2: whether a treatment takes a contaminant off this material. */
export function takesOff(unit: Unit, step: StepId, what: Contaminant): boolean {
  const family = familyOf(unit);
  if (step === texturing(unit)) return true;
  if (step === 'acid-clean') return family === 'glass' && SURFACE.includes(what);
  if (step !== 'cleaner' || !['oxide', 'noble', 'base'].includes(family)) return false;
  // An astringent is rinsed off, and what is left is as blood.
  return SURFACE.includes(what) || what === 'blood' || what === 'astringent';
}
