import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Contaminant, Material, StepId } from '../../machines/contract/index.ts';
import { intaglioRoute } from '../../machines/plan/index.ts';
import { anyIntaglio, soundCase } from './case-arbitrary.ts';

/**
 * A second, independent statement of what steps do to an intaglio, taken from the trade and not
 * from the tables: it judges where a route ends.
 */
interface Surface {
  soil: Set<Contaminant>;
  texture: string;
  primed: boolean;
  wet: boolean;
  agent: StepId | null;
}

const STUBBORN: readonly Contaminant[] = ['fit-paste', 'cement'];
const drop = (surface: Surface, keeps: readonly Contaminant[]): void => {
  surface.soil = new Set([...surface.soil].filter((each) => keeps.includes(each)));
};

/** The strongest an agent can have done, once rinsed off. */
const rinsed = (surface: Surface, material: Material): void => {
  const oxide = material === 'zirconia-3y';
  if (surface.agent === 'cleaner' && oxide) drop(surface, STUBBORN);
  if (surface.agent === 'acid-clean' && !oxide) drop(surface, [...STUBBORN, 'blood']);
  if (surface.agent === 'porcelain-etch' && !oxide) {
    drop(surface, []);
    surface.texture = 'etched';
  }
  surface.agent = null;
  surface.wet = true;
  surface.primed = false;
};

const apply = (surface: Surface, step: StepId, material: Material): void => {
  if (/^(cleaner|acid-clean|porcelain-etch)$/.test(step)) surface.agent = step;
  if (step.endsWith('-rinse')) rinsed(surface, material);
  if (step === 'abrade' && material === 'zirconia-3y') {
    drop(surface, []);
    surface.texture = 'abraded';
    surface.primed = false;
  }
  if (step === 'intaglio-dry') surface.wet = false;
  const primer = material === 'zirconia-3y' ? 'zirconia-primer' : 'silane';
  if (step === primer) surface.primed = surface.soil.size === 0 && !surface.wet;
};

test('from any state a route ends clean, textured, dry and, where the cement needs it, primed', () => {
  fc.assert(
    fc.property(soundCase, anyIntaglio, ({ units, shelf }, state) => {
      for (const unit of units) {
        const oxide = unit.material === 'zirconia-3y';
        const agent = oxide === (state.agent === 'cleaner') ? state.agent : null;
        const surface: Surface = {
          soil: new Set(state.contaminants),
          texture: state.texture,
          primed: state.primed,
          wet: state.wet || agent !== null,
          agent,
        };
        for (const step of intaglioRoute(unit, shelf, { ...state, agent })) {
          apply(surface, step, unit.material);
        }
        const cement = shelf.cements.find(({ label }) => label === unit.cement);
        const primes =
          cement?.class !== 'resin-modified-glass-ionomer' &&
          !(oxide && cement?.carriesPhosphate === true);
        expect({
          ...surface,
          soil: [...surface.soil],
          primed: primes ? surface.primed : true,
        }).toEqual({
          soil: [],
          texture: oxide ? 'abraded' : 'etched',
          primed: true,
          wet: false,
          agent: null,
        });
      }
    }),
    { numRuns: 400 },
  );
});

test('no route ever touches a material with what is forbidden on it', () => {
  const forbidden: Record<Material, readonly StepId[]> = {
    'zirconia-3y': [
      'porcelain-etch',
      'porcelain-etch-rinse',
      'silane',
      'acid-clean',
      'acid-clean-rinse',
    ],
    'lithium-disilicate': ['abrade', 'zirconia-primer', 'cleaner', 'cleaner-rinse'],
  };
  fc.assert(
    fc.property(soundCase, anyIntaglio, ({ units, shelf }, drawn) => {
      const state = { ...drawn, agent: null };
      for (const unit of units) {
        const route = intaglioRoute(unit, shelf, state);
        expect(route.filter((step) => forbidden[unit.material].includes(step))).toEqual([]);
        expect(new Set(route).size).toBe(route.length);
      }
    }),
    { numRuns: 400 },
  );
});
