/**
 * What each contaminant forces on each material in each state, cell by cell against the trade reference,
 * section 2 (its rows quoted below). Marks in the reference: Klosa 2009 and Quaas 2007 for silicone, Gonzaga
 * 2019 for try-in paste, Kim 2015 for peroxide, Phark 2009 for stone; the rest is common practice, no source.
 * Machine and practice differ in one direction only: where the reference rinses and goes on, the chair cleans.
 */
import { describe, expect, test } from 'vitest';
import { caseOf } from '../../assistant/cli/all-cases.ts';
import type { Contaminant, Material, StepId } from '../../machines/contract/index.ts';
import { Operatory } from '../chair/operatory.ts';

/** The states in which something may land on the inside. */
const STATES = ['not conditioned', 'conditioned', 'primed', 'loaded'] as const;
type State = (typeof STATES)[number];

const kept = new Map<string, Operatory>();

/** A chair where the inside has got so far; each call has its own. */
function standing(material: Material, state: State): Operatory {
  const key = `${material} ${state}`;
  const chair = kept.get(key) ?? brought(material, state);
  kept.set(key, chair);
  return chair.fork();
}

function brought(material: Material, state: State): Operatory {
  const cement = 'adhesive-resin-dual';
  const checked = caseOf({ material, kind: 'crown', substrate: 'dentin', cement });
  if (!checked.ok) throw new Error(`No crown of ${material}`);
  const chair = new Operatory(checked.case);
  // Before anything conditions it; dry and textured; ready for cement; with cement in it.
  chair.until('take-out').must({ type: 'finish' });
  if (state === 'not conditioned') return chair;
  const primer = chair.unit.routes.intaglio.find(
    (step) => step.endsWith('primer') || step === 'silane',
  );
  chair.until(state === 'conditioned' ? (primer ?? 'mix') : 'mix');
  return state === 'loaded' ? chair.doStep().doStep() : chair;
}

/** What cleans it then: the treatment that is due on the inside, and whether it is primed again. */
function forced(material: Material, state: State, contaminant: Contaminant) {
  const chair = standing(material, state);
  chair.must({ type: 'soil', surface: 'intaglio', contaminant });
  const { intaglio } = chair.unit.routes;
  const treats: readonly StepId[] = ['cleaner', 'acid-clean', 'porcelain-etch', 'abrade'];
  const primers: readonly StepId[] = ['silane', 'zirconia-primer', 'metal-primer'];
  const wasted = state !== 'loaded' || chair.unit.now.cement === 'none';
  return {
    by: intaglio.filter((step) => treats.includes(step)),
    primed: intaglio.some((step) => primers.includes(step)),
    state: chair.unit.now.intaglio,
    wasted,
  };
}

const OXIDES = ['zirconia-3y', 'zirconia-5y', 'alumina', 'base-metal', 'noble-metal'] as const;
const GLASSES = [
  'feldspathic',
  'leucite',
  'lithium-disilicate',
  'lithium-silicate-zirconia',
] as const;

/** A row of section 2: the words of its cells, and what they come to on a surface with its texture. */
interface Row {
  readonly contaminant: Contaminant;
  readonly oxide: { readonly says: string; readonly by: StepId };
  readonly glass: { readonly says: string; readonly by: StepId };
}

const ROWS: readonly Row[] = [
  {
    contaminant: 'saliva',
    oxide: { says: 'rinse → alkaline cleaner 20 s or re-abrade → primer', by: 'cleaner' },
    glass: {
      says: 'not yet etched: HF as planned; pre-etched: phosphoric 60 s or HF re-etch → new silane',
      by: 'acid-clean',
    },
  },
  {
    contaminant: 'blood',
    oxide: { says: 'cold rinse, then as saliva; prefer re-abrade', by: 'cleaner' },
    glass: { says: 'HF re-etch', by: 'porcelain-etch' },
  },
  {
    contaminant: 'fit-paste',
    oxide: { says: 're-abrade 50 µm 2.5 bar 15 s; peel, alcohol first', by: 'abrade' },
    glass: { says: 'HF re-etch', by: 'porcelain-etch' },
  },
  {
    contaminant: 'disclosing',
    oxide: { says: 'alcohol or acetone wipe → ultrasonic/steam → abrade', by: 'abrade' },
    glass: { says: 'alcohol → ultrasonic → HF', by: 'porcelain-etch' },
  },
  {
    contaminant: 'try-in-paste',
    oxide: { says: 'spray 20–30 s then treat as saliva', by: 'cleaner' },
    glass: { says: 'as saliva; 35 % phosphoric 30 s effective on LDS', by: 'acid-clean' },
  },
  {
    contaminant: 'provisional',
    oxide: { says: 'scrape, ultrasonic 5 min, re-abrade', by: 'abrade' },
    glass: { says: 'scrape, alcohol, ultrasonic, HF', by: 'porcelain-etch' },
  },
  {
    contaminant: 'provisional-eugenol',
    oxide: { says: 'as above + alcohol', by: 'abrade' },
    glass: { says: 'as above', by: 'porcelain-etch' },
  },
  {
    contaminant: 'astringent',
    oxide: { says: 'rinse; as blood', by: 'cleaner' },
    glass: { says: 'rinse; HF', by: 'porcelain-etch' },
  },
  {
    // The row says only that peroxide does not clean: what it left is taken off with a fresh surface (judgement).
    contaminant: 'peroxide',
    oxide: { says: 'do not clean with H₂O₂', by: 'abrade' },
    glass: { says: 'same', by: 'porcelain-etch' },
  },
  {
    contaminant: 'glove-powder',
    oxide: { says: 'never touch intaglio; alcohol, re-clean', by: 'cleaner' },
    glass: { says: 'same', by: 'acid-clean' },
  },
  {
    contaminant: 'air-line-oil',
    oxide: { says: 'acetone/alcohol, recondition', by: 'abrade' },
    glass: { says: 'same', by: 'porcelain-etch' },
  },
  {
    contaminant: 'stone',
    oxide: { says: 'ultrasonic, abrade', by: 'abrade' },
    glass: { says: 'ultrasonic, HF', by: 'porcelain-etch' },
  },
];

describe.each(ROWS)('$contaminant on the inside', ({ contaminant, oxide, glass }) => {
  test.each(OXIDES)(`%s: ${oxide.says}`, (material) => {
    for (const state of STATES) {
      // Without its texture only abrasion gives it, whatever lies there.
      const by = state === 'not conditioned' ? 'abrade' : oxide.by;
      expect(forced(material, state, contaminant)).toEqual({
        by: [by],
        primed: true,
        state: 'soiled',
        wasted: true,
      });
    }
  });

  test.each(GLASSES)(`%s: ${glass.says}`, (material) => {
    for (const state of STATES) {
      const by = state === 'not conditioned' ? 'porcelain-etch' : glass.by;
      expect(forced(material, state, contaminant)).toEqual({
        by: [by],
        primed: true,
        state: 'soiled',
        wasted: true,
      });
    }
  });
});

/** 1D: "RMC re-abrade; PIC HF 30–60 … water alone does not". */
test.each([
  ['resin-matrix', 'abrade'],
  ['polymer-infiltrated', 'porcelain-etch'],
] as const)('%s: everything takes a fresh surface', (material, by) => {
  for (const { contaminant } of ROWS) {
    for (const state of STATES) {
      expect(forced(material, state, contaminant).by).toEqual([by]);
    }
  }
});

/** Section 2: what is in a tooth a week long is not cleaned off (Ferraz 2018). */
const CLEANABLE = ROWS.filter(({ contaminant }) => contaminant !== 'peroxide');

/** Tooth side of section 2: rinse or pumice, etch again, bond again; nothing on it counts any more. */
describe.each(CLEANABLE)('$contaminant on the tooth side', ({ contaminant }) => {
  test.each([
    ['before the etch: cleaned as planned', 'tooth-etch'],
    ['etched: cleaned, etched again', 'bond'],
    ['after the adhesive: the whole of it again', 'mix'],
  ] as const)('%s', (_, at) => {
    const checked = caseOf({
      material: 'lithium-disilicate',
      kind: 'crown',
      substrate: 'dentin',
      cement: 'adhesive-resin-dual',
    });
    if (!checked.ok) throw new Error('No crown of lithium disilicate');
    const chair = new Operatory(checked.case).until(at);
    chair.must({ type: 'soil', surface: 'prep', contaminant });
    expect(chair.unit.now.prep).toBe('exposed');
    expect(chair.refusedFor({ type: 'begin', step: 'mix' })).toBe('prep-not-ready');
    expect(chair.refusedFor({ type: 'begin', step: 'bond' })).toBe('prep-not-clean');
    expect(chair.step).toBe('pumice');
    chair.until('mix');
    expect(chair.unit.now.prep).toBe('ready');
  });
});
