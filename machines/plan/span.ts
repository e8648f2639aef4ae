import type { Span as SpanFacts, UnitFacts } from '../contract/index.ts';
import { toothClass, universalOf } from '../form/index.ts';
import type { Material, Quantity } from '../trade/index.ts';

/** A bridge as far as its teeth go. */
export type Spanning = Pick<UnitFacts, 'tooth'> & { readonly bridge: SpanFacts };

/** Every tooth of a bridge, in the order of the arch. */
export const teethOf = ({ tooth, bridge }: Spanning): string[] =>
  [tooth, ...bridge.retainers.map((other) => other.tooth), ...bridge.pontics].toSorted(
    (one, other) => (universalOf(one) ?? 0) - (universalOf(other) ?? 0),
  );

/** What is wrong with the row of teeth, in words; null when they stand side by side in one jaw. */
export const gapIn = (unit: Spanning): string | null => {
  const places = teethOf(unit).map((tooth) => universalOf(tooth) ?? 0);
  const [first] = places;
  if (new Set(places).size < places.length) return 'a tooth is named twice';
  if (first === undefined || places.some((place) => place <= 16 !== first <= 16)) {
    return 'the teeth are not in one jaw';
  }
  return places.every((place, index) => place === first + index)
    ? null
    : 'the teeth do not stand side by side';
};

/** The ISO 6872 class a bridge of these teeth asks of a ceramic. */
export const classFor = (unit: Spanning): { readonly needs: number; readonly why: string } => {
  const teeth = teethOf(unit);
  if (teeth.length >= 4) return { needs: 5, why: `${teeth.length} units` };
  const molar = teeth.some((tooth) => toothClass(tooth) === 'molar');
  return molar
    ? { needs: 4, why: `${teeth.length} units with a molar` }
    : { needs: 3, why: `${teeth.length} units without a molar` };
};

/** The least connector, mm2; null where the tables know none. */
export const leastConnector = (unit: Spanning, material: Material): Quantity | null => {
  const { connector } = material;
  if (connector === null) return null;
  const pontics = unit.bridge.pontics.map((tooth) => universalOf(tooth) ?? 0);
  const neighbours = pontics.some((place) => pontics.includes(place + 1));
  const posterior = unit.bridge.pontics.some((tooth) =>
    ['premolar', 'molar'].includes(toothClass(tooth) ?? ''),
  );
  if (neighbours && connector.twoPontics !== null) return connector.twoPontics;
  return posterior ? connector.posterior : connector.anterior;
};
