import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Contaminant, Material, StepId } from '../../machines/contract/index.ts';
import { intaglioRoute } from '../../machines/plan/index.ts';
import { anyIntaglio, soundCase } from './case-arbitrary.ts';
import { isGlass, isMetal, isNoble, isOxide, neverOn } from './never-on.ts';

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
  const never = surface.agent === null || neverOn(material).includes(surface.agent);
  if (surface.agent === 'cleaner' && !never) drop(surface, STUBBORN);
  if (surface.agent === 'acid-clean' && !never) drop(surface, [...STUBBORN, 'blood']);
  if (surface.agent === 'porcelain-etch' && !never) {
    drop(surface, []);
    surface.texture = 'etched';
  }
  surface.agent = null;
  surface.wet = true;
  surface.primed = false;
};

const primerOf = (material: Material): StepId => {
  if (isOxide(material)) return 'zirconia-primer';
  return isMetal(material) ? 'metal-primer' : 'silane';
};

const apply = (surface: Surface, step: StepId, material: Material): void => {
  if (/^(cleaner|acid-clean|porcelain-etch)$/.test(step)) surface.agent = step;
  if (step.endsWith('-rinse')) rinsed(surface, material);
  if (step === 'abrade' && !isGlass(material)) {
    drop(surface, []);
    surface.texture = 'abraded';
    surface.primed = false;
  }
  if (step === 'intaglio-dry') surface.wet = false;
  if (step === primerOf(material)) surface.primed = surface.soil.size === 0 && !surface.wet;
};

/** Acid-base cements bond to no primer. */
const UNPRIMED = [
  'zinc-phosphate',
  'glass-ionomer',
  'resin-modified-glass-ionomer',
  'calcium-aluminate',
];

test('from any state a route ends clean, textured, dry and, where the cement needs it, primed', () => {
  fc.assert(
    fc.property(soundCase, anyIntaglio, ({ units, shelf }, state) => {
      for (const unit of units) {
        const agent =
          state.agent !== null && neverOn(unit.material).includes(state.agent) ? null : state.agent;
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
        const phosphateDoes =
          isOxide(unit.material) || (isMetal(unit.material) && !isNoble(unit.material));
        const primes =
          !UNPRIMED.includes(cement?.class ?? '') &&
          !(phosphateDoes && cement?.carriesPhosphate === true);
        expect({
          ...surface,
          soil: [...surface.soil],
          primed: primes ? surface.primed : true,
        }).toEqual({
          soil: [],
          texture: isGlass(unit.material) ? 'etched' : 'abraded',
          primed: true,
          wet: false,
          agent: null,
        });
      }
    }),
    { numRuns: 250 },
  );
});

test('no route ever touches a material with what is forbidden on it', () => {
  fc.assert(
    fc.property(soundCase, anyIntaglio, ({ units, shelf }, drawn) => {
      const state = { ...drawn, agent: null };
      for (const unit of units) {
        const route = intaglioRoute(unit, shelf, state);
        expect(route.filter((step) => neverOn(unit.material).includes(step))).toEqual([]);
        expect(new Set(route).size).toBe(route.length);
      }
    }),
    { numRuns: 250 },
  );
});
