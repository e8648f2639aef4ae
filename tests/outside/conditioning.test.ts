import { expect, test } from 'vitest';
import { MATERIALS, type Material } from '../../machines/contract/index.ts';
import { MATERIAL_TABLE } from '../../machines/trade/index.ts';

/**
 * Windows written down a second time from the trade reference: common practice, except the least etch of
 * feldspathic and lithium disilicate (Head Face Med 2019), the etch of leucite (Braz Oral Res 2019) and the 25
 * micrometres of 5Y zirconia (Kim HK, Ahn B. Materials 2021;14:610). Alumina: Hummel M, Kern M. Dent Mater 2004.
 */
const ETCH_S: Partial<Readonly<Record<Material, readonly [number, number, number]>>> = {
  feldspathic: [15, 60, 120],
  leucite: [20, 60, 60],
  'lithium-disilicate': [15, 20, 30],
  'lithium-silicate-zirconia': [15, 25, 30],
  'polymer-infiltrated': [30, 60, 60],
};

/** Micrometres, least and most bar, and most seconds. */
const BLAST: Partial<Readonly<Record<Material, readonly [number, number, number, number]>>> = {
  'resin-matrix': [50, 1, 2, 10],
  'zirconia-3y': [50, 1.5, 2.5, 20],
  'zirconia-4y': [50, 1, 2, 15],
  'zirconia-5y': [25, 1, 1.5, 12],
  'zirconia-veneered': [50, 1.5, 2.5, 20],
  alumina: [50, 2, 2.5, 15],
  'alumina-infiltrated': [50, 2, 2.5, 15],
  'noble-metal': [50, 2, 3, 20],
  'base-metal': [50, 2, 4, 20],
  titanium: [50, 2, 4, 20],
  'metal-ceramic-noble': [50, 2, 3, 20],
  'metal-ceramic-base': [50, 2, 4, 20],
};

const PRIMERS: Readonly<Record<string, RegExp>> = {
  silane: /^(?:feldspathic|leucite|lithium|polymer|resin)/u,
  'zirconia-primer': /^(?:zirconia|alumina)/u,
  'metal-primer': /^(?:noble|base|titanium|metal)/u,
};

test.each(MATERIALS)('%s', (id) => {
  const { etchable, conditioning, acidPercent, abrasion, primer, monomer } = MATERIAL_TABLE[id];
  const { min, target, max } = conditioning;
  const etch = ETCH_S[id];
  const blast = BLAST[id];
  expect(id).toMatch(PRIMERS[primer] ?? /never/u);
  expect(etchable).toBe(etch !== undefined);
  expect(acidPercent?.value).toBe(etch === undefined ? undefined : 5);
  expect(monomer).toBe(
    primer === 'metal-primer' ? (id.includes('noble') ? 'sulfur' : 'phosphate') : null,
  );
  expect(etch === undefined ? undefined : [min, target, max]).toEqual(etch);
  expect(
    abrasion === null
      ? undefined
      : [abrasion.particle.target, abrasion.pressure.min, abrasion.pressure.max, max],
  ).toEqual(blast);
});

// Above 50 micrometres or 2.5 bar zirconia is damaged (common practice).
test.each(MATERIALS.filter((id) => id.startsWith('zirconia')))('%s is not blasted hard', (id) => {
  const { abrasion } = MATERIAL_TABLE[id];
  expect(abrasion?.particle.max).toBeLessThanOrEqual(50);
  expect(abrasion?.pressure.max).toBeLessThanOrEqual(2.5);
});
