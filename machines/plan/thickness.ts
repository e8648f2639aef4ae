import type { UnitFacts } from '../contract/index.ts';
import { toothClass } from '../form/index.ts';
import type { CementTable, Material, Span } from '../trade/index.ts';

type Sized = Pick<UnitFacts, 'kind'>;

/** The thickness window of a use; null where the tables know none. */
export const thicknessOf = ({ kind }: Sized, material: Material): Span | null => {
  switch (kind) {
    case 'crown':
    case 'bridge':
    case 'implant-crown':
      return material.thickness.crown;
    case 'resin-bonded-bridge':
      return null;
    default:
      return material.thickness[kind];
  }
};

/**
 * The least thickness, mm, under this cement: a glass-ceramic gets by with the lower end only
 * where a resin carries it. Null where the tables know none.
 */
export const leastThickness = (
  unit: Sized,
  material: Material,
  cement: Pick<CementTable, 'takesPrimer'>,
): number | null => {
  const span = thicknessOf(unit, material);
  if (span === null) return null;
  const carried = cement.takesPrimer || material.family === 'oxide' || material.family === 'metal';
  return carried ? (span.min ?? span.target) : span.target;
};

/** A lower second or third molar: too little room for a frame with porcelain on it. */
export const isLowLastMolar = (tooth: string): boolean =>
  /^[34]/.test(tooth) && toothClass(tooth) === 'molar' && tooth[1] !== '6';
