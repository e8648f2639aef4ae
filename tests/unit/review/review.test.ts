import { describe, expect, test } from 'vitest';
import type { Command, StepId } from '../../../machines/contract/index.ts';
import { counterfactual, Reviewer } from '../../../machines/review/index.ts';
import type { GradedDeviation } from '../../../machines/review/index.ts';
import { DISILICATE, inventedCase, SHELF, ZIRCONIA } from '../../chair/cases.ts';
import { Operatory } from '../../chair/operatory.ts';
import { chairRecord } from '../../review/chair-record.ts';

const zirconia = () => new Operatory(inventedCase([ZIRCONIA]));
const disilicate = () => new Operatory(inventedCase([DISILICATE]));

const reviewed = (chair: Operatory) => new Reviewer().review('record', chairRecord(chair));
/** What a deviation is about, without its words. */
const brief = ({ grade, tooth, step, entries, found }: GradedDeviation) =>
  [grade, tooth, step, entries, found] as const;
const briefs = (chair: Operatory) => reviewed(chair).deviations.map(brief);

/** Says it, says yes, and overrides what refuses it. */
function insist(chair: Operatory, command: Command): void {
  for (let outcome = chair.say(command); outcome.kind !== 'accepted';) {
    outcome =
      outcome.kind === 'asked'
        ? chair.say({ type: 'confirm' })
        : chair.say({ type: 'override', reason: 'clinical-judgement' });
  }
}

function skip(chair: Operatory, step: StepId): void {
  chair.say({ type: 'skip', step, reason: 'not-needed' });
  chair.must({ type: 'confirm' });
}

describe('a record by its plan', () => {
  test.each([zirconia, disilicate])('costs nothing and departs in nothing', (chair) => {
    const { alignment, deviations, units } = reviewed(chair().until(null));
    expect([alignment.cost, alignment.fitness, deviations]).toEqual([0, 1, []]);
    expect(alignment.moves.every(({ kind }) => kind === 'synchronous')).toBe(true);
    expect(units.map(({ seated }) => seated !== null)).toEqual([true]);
  });

  test('re-cleaning after saliva and a second try-in are ways the plan has', () => {
    const chair = zirconia().until('mix');
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' }).until('mix');
    chair.must({ type: 'begin', step: 'try-in' }).until('seat');
    chair.must({ type: 'soil', surface: 'field', contaminant: 'saliva' }).until(null);
    expect(reviewed(chair).alignment.cost).toBe(0);
  });

  test('the prep side before the intaglio side, by two pairs of hands', () => {
    const chair = zirconia().until('cleaner');
    const prep = ['isolate', 'pumice', 'dry-check', 'tooth-etch', 'tooth-etch-rinse'] as const;
    for (const step of prep) {
      chair.say({ type: 'begin', step });
      chair.wait(30).say({ type: 'finish', step });
      if (step === 'isolate') chair.doStep();
    }
    expect(reviewed(chair).alignment.moves.filter(({ kind }) => kind === 'log')).toEqual([]);
  });
});

describe('grades', () => {
  test('not done: skipped, with its entry and reason', () => {
    const chair = zirconia().until('shade-photo');
    skip(chair, 'shade-photo');
    const { alignment, deviations } = reviewed(chair.until(null));
    expect(alignment.cost).toBe(1);
    expect(deviations.map(brief)).toEqual([
      ['not done', null, 'shade-photo', [6], 'skipped: not needed'],
    ]);
  });

  test('not done: the cleaning the plan asked for, not the one that would have been cheapest', () => {
    const chair = zirconia().until('cleaner');
    skip(chair, 'cleaner');
    skip(chair, 'cleaner-rinse');
    expect(briefs(chair).slice(0, 2)).toEqual([
      ['not done', '46', 'cleaner', [19], 'skipped: not needed'],
      ['not done', '46', 'cleaner-rinse', [21], 'skipped: not needed'],
    ]);
  });

  test('short, with the seconds served; and served in full afterwards', () => {
    const chair = zirconia().until('cleaner').must({ type: 'begin', step: 'cleaner' }).wait(5);
    chair.say({ type: 'short', reason: 'patient-comfort' });
    chair.must({ type: 'confirm' });
    const [short] = reviewed(chair).deviations;
    expect(short && brief(short)).toEqual(['short', '46', 'cleaner', [18, 20], '5 s']);
    expect(short?.measured).toEqual({ seconds: 5, minS: 20, targetS: 20, maxS: 60 });
    expect(short?.redone).toBe(undefined);
    chair.until('intaglio-dry').must({ type: 'begin', step: 'cleaner' }).wait(20);
    chair.must({ type: 'finish', step: 'cleaner' });
    expect(reviewed(chair).deviations[0]?.redone).toBe(24);
  });

  test('long: past its most', () => {
    const chair = zirconia().until('cleaner').must({ type: 'begin', step: 'cleaner' }).wait(90);
    chair.must({ type: 'finish' }).until(null);
    expect(briefs(chair)).toEqual([['long', '46', 'cleaner', [18, 19], '90 s']]);
  });

  test('out of order: a look before the one it comes after', () => {
    const chair = zirconia().until('contacts');
    chair.must({ type: 'finish', step: 'margins' }).must({ type: 'finish', step: 'contacts' });
    const [first] = reviewed(chair.until(null)).deviations;
    expect(first && [first.grade, first.step, first.entries, first.asked]).toEqual([
      'out of order',
      'contacts',
      [12],
      'Contacts, after "Try in", before "Seat and margins"',
    ]);
  });

  test('late and forced: seated after the working time', () => {
    const chair = zirconia().until('mix').must({ type: 'begin', step: 'mix' });
    const { workingS } = chair.unit.plan.cement;
    chair.must({ type: 'begin', step: 'load' }).wait(workingS + 1);
    insist(chair, { type: 'begin', step: 'seat' });
    chair.wait(45).must({ type: 'finish', step: 'seat' });
    const found = reviewed(chair).deviations.filter(({ step }) => step === 'seat');
    expect(found.map(({ grade, refusal }) => [grade, refusal])).toContainEqual(['late', null]);
    expect(found.map(({ grade, refusal }) => [grade, refusal])).toContainEqual([
      'refused and forced',
      'working-time-over',
    ]);
  });

  test('wrong agent: phosphoric acid where silicone asked for hydrofluoric', () => {
    const chair = disilicate().until('porcelain-etch');
    insist(chair, { type: 'begin', step: 'acid-clean' });
    chair.wait(60).must({ type: 'finish', step: 'acid-clean' });
    const found = reviewed(chair).deviations;
    expect(found.map(brief)).toContainEqual([
      'wrong agent',
      '15',
      'acid-clean',
      [chair.told.length],
      'Phosphoric acid clean',
    ]);
    expect(found.map(({ grade, step }) => [grade, step])).toContainEqual([
      'not done',
      'porcelain-etch',
    ]);
  });

  test('unverified: counted as clean, and what that left undone', () => {
    const chair = zirconia().until('mix');
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' });
    chair.say({ type: 'counts-clean', reason: 'clinical-judgement' });
    chair.must({ type: 'confirm' }).until(null);
    const [entry] = chair.told.flatMap(({ outcome }, i) =>
      outcome.kind === 'accepted' && outcome.deviation?.kind === 'counted-clean' ? [i + 1] : [],
    );
    expect(briefs(chair)).toEqual([
      ['not done', '46', 'intaglio-rinse', [entry], 'counted as clean instead'],
      ['not done', '46', 'cleaner', [entry], 'counted as clean instead'],
      ['unverified', '46', null, [entry], 'counted as clean: clinical judgement'],
    ]);
  });

  test('wrong agent: a lot past its date, with the reason the case gave', () => {
    const cements = SHELF.cements.map((cement) => ({
      ...cement,
      lot: 'INV-9',
      expires: '2020-01-31',
      expiredReason: 'the new one has not come',
    }));
    const caseFile = inventedCase([ZIRCONIA], { shelf: { ...SHELF, cements } });
    const chair = new Operatory(caseFile).until(null);
    const { header, entries } = chairRecord(chair);
    const expired = [
      {
        item: 'adhesive resin',
        lot: 'INV-9',
        expires: '2020-01-31',
        reason: 'the new one has not come',
      },
    ];
    const plan = { ...header.plan, expired };
    const { deviations } = new Reviewer().review('record', {
      header: { ...header, plan },
      entries,
    });
    expect(deviations.map(brief)).toEqual([
      ['wrong agent', null, null, [], 'lot INV-9, past 2020-01-31: the new one has not come'],
    ]);
  });

  test('what was taken back has not happened; taking a contamination back is unverified', () => {
    const chair = zirconia().until('mix');
    chair.must({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' });
    chair.must({ type: 'undo' }).until(null);
    expect(reviewed(chair).alignment.cost).toBe(0);
    expect(briefs(chair).map(([grade, tooth]) => [grade, tooth])).toEqual([['unverified', '46']]);
  });
});

describe('would the guard have caught it?', () => {
  test('what was forced was refused first', () => {
    const chair = zirconia().until('cleaner');
    skip(chair, 'cleaner');
    skip(chair, 'cleaner-rinse');
    chair.until('zirconia-primer');
    insist(chair, { type: 'begin', step: 'zirconia-primer' });
    const { header, entries } = chairRecord(chair);
    expect(counterfactual(header, entries)).toEqual({
      guarded: [
        {
          entry: 24,
          tooth: '46',
          step: 'zirconia-primer',
          refusal: 'intaglio-soiled',
          then: 'forced',
        },
      ],
      otherwise: [],
    });
  });

  test('a record of a machine that let it through: refused today, and only there', () => {
    const chair = zirconia().until('zirconia-primer');
    const { header, entries } = chairRecord(chair.until(null));
    // As an older machine might have written it: the cleaner's entries never were.
    const without = entries.filter(({ step }) => step !== 'cleaner' && step !== 'cleaner-rinse');
    const { guarded, otherwise } = counterfactual(header, without);
    expect(guarded.map(({ step, refusal }) => `${step}: ${refusal}`)).toEqual([
      'zirconia-primer: intaglio-soiled',
      // Forced on a soiled surface it earns nothing, so that these follow.
      'primer-dry: first',
      'primer-dry: first',
      'mix: intaglio-soiled',
      'load: intaglio-soiled',
    ]);
    expect(new Set(guarded.map(({ then }) => then))).toEqual(new Set(['let through']));
    expect(otherwise).toEqual([]);
  });
});
