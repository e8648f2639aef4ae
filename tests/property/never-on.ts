import type { Material, StepId } from '../../machines/contract/index.ts';

/** Materials by what may touch them, stated here a second time from the trade and not from the tables. */
const GLASS: readonly Material[] = [
  'feldspathic',
  'leucite',
  'lithium-disilicate',
  'lithium-silicate-zirconia',
  'polymer-infiltrated',
];
const METAL: readonly Material[] = [
  'noble-metal',
  'base-metal',
  'titanium',
  'metal-ceramic-noble',
  'metal-ceramic-base',
];

/** Etched with hydrofluoric acid, and primed with silane. */
export const isGlass = (material: Material): boolean => GLASS.includes(material);
/** An alloy, bare or under porcelain. */
export const isMetal = (material: Material): boolean => METAL.includes(material);
/** A noble alloy: no oxide for a phosphate. */
export const isNoble = (material: Material): boolean => material.includes('noble');
/** Zirconia or alumina. */
export const isOxide = (material: Material): boolean =>
  material.startsWith('zirconia') || material.startsWith('alumina');

/** Steps that must never be planned on a material (law 3 and the chemistry that does not count). */
export function neverOn(material: Material): readonly StepId[] {
  if (isGlass(material)) {
    const always: readonly StepId[] = [
      'abrade',
      'zirconia-primer',
      'metal-primer',
      'cleaner',
      'cleaner-rinse',
    ];
    return material === 'polymer-infiltrated'
      ? [...always, 'acid-clean', 'acid-clean-rinse']
      : always;
  }
  const acids: readonly StepId[] = [
    'porcelain-etch',
    'porcelain-etch-rinse',
    'acid-clean',
    'acid-clean-rinse',
  ];
  if (isOxide(material)) return [...acids, 'silane', 'metal-primer'];
  if (isMetal(material)) return [...acids, 'silane', 'zirconia-primer'];
  return [...acids, 'cleaner', 'cleaner-rinse', 'zirconia-primer', 'metal-primer'];
}
