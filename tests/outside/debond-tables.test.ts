/** What the trade reference worked out from its own tables (section 8, marked computed there). */
import { expect, test } from 'vitest';
import {
  CAUSE_TABLE,
  CAUSES,
  FORM_FINDING,
  hazardOf,
  SURVIVAL_ANCHORS,
} from '../../machines/trade/index.ts';
import type { Cause } from '../../machines/trade/index.ts';

/** Chance under a cause over its prior-weighted chance under all others. */
function against(cause: Cause, chance: (of: Cause) => number): number {
  const others = CAUSES.filter((one) => one !== cause);
  const prior = (of: Cause): number => CAUSE_TABLE[of].prior.value;
  const weight = others.reduce((sum, one) => sum + prior(one), 0);
  const mean = others.reduce((sum, one) => sum + prior(one) * chance(one), 0) / weight;
  return chance(cause) / mean;
}

test('likelihood ratios of findings against the other causes', () => {
  const shown = [
    against('intaglio', (of) => CAUSE_TABLE[of].site['on-tooth'].value),
    against('tooth-bond', (of) => CAUSE_TABLE[of].site['in-crown'].value),
    against('cement', (of) => CAUSE_TABLE[of].site['none-or-soft'].value),
    against('core', (of) => CAUSE_TABLE[of].site['core-in-crown'].value),
    against('cement', (of) => CAUSE_TABLE[of].spell['under-1-month'].value),
    against('core', (of) => CAUSE_TABLE[of].spell['over-5-years'].value),
    against('form', (of) => CAUSE_TABLE[of].spell['over-5-years'].value),
  ];
  // The fifth is 2.749: rounded the other way there.
  const told = [4.1, 4, 7.2, 30.8, 2.8, 2.9, 1.7];
  expect(shown.map((ratio, i) => Math.abs(ratio / (told[i] ?? 0) - 1) < 0.02)).toEqual(
    told.map(() => true),
  );
});

test('likelihood ratios of form by kind of tooth (shares: Parker MH. Dent Clin North Am 2004;48:387-396)', () => {
  const lacks = FORM_FINDING.lacksWhereCause.value;
  const shown = Object.entries(FORM_FINDING.present).map(([kind, { value }]) => [
    kind,
    (lacks / (1 - value) + 1e-9).toPrecision(3),
    ((1 - lacks) / value).toFixed(3),
  ]);
  expect(shown).toEqual([
    ['incisor', '23.8', '0.052'],
    ['canine', '11.9', '0.054'],
    ['premolar', '5.00', '0.062'],
    ['molar', '1.76', '0.109'],
  ]);
});

test('hazards of the survival anchors, percent a crown-year', () => {
  const shown = Object.entries(SURVIVAL_ANCHORS).map(([id, anchor]) => [
    id,
    (100 * hazardOf(anchor)).toFixed(2),
  ]);
  expect(shown).toEqual([
    ['metal-ceramic-crown', '1.09'],
    ['glass-ceramic-crown', '0.69'],
    ['zirconia-crown', '1.65'],
    ['zirconia-crown-retention', '0.96'],
    ['metal-ceramic-crown-retention', '0.12'],
    ['veneer-retention', '0.08'],
    ['implant-crown-retention', '0.84'],
    ['student-crown', '3.51'],
  ]);
});
