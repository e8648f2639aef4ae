import { expect, test } from 'vitest';
import { caseOf } from '../../../assistant/cli/all-cases.ts';
import type { Substrate } from '../../../machines/contract/index.ts';
import { Operatory } from '../../chair/operatory.ts';

function chairOn(substrate: Substrate, cement: 'adhesive-resin-dual'): Operatory {
  const kind = substrate === 'titanium-abutment' ? 'implant-crown' : 'crown';
  const checked = caseOf({ material: 'lithium-disilicate', kind, substrate, cement });
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return new Operatory(checked.case);
}

// Both found by `npm run laws`.
test('thinning what is only the primer makes no prep ready', () => {
  const chair = chairOn('amalgam-core', 'adhesive-resin-dual').until('core-primer').doStep();
  expect(chair.refusedFor({ type: 'begin', step: 'bond-thin' })).toBe('first');
  // By force it is let through, and earns nothing.
  chair.must({ type: 'override', reason: 'clinical-judgement' }).wait(10);
  chair.say({ type: 'finish', step: 'bond-thin' });
  chair.must({ type: 'override', reason: 'clinical-judgement' });
  expect(chair.unit.now.prep).not.toBe('ready');
});

test('primer put on a ready abutment once more has to be dried once more', () => {
  const chair = chairOn('titanium-abutment', 'adhesive-resin-dual').until('mix');
  expect(chair.unit.now.prep).toBe('ready');
  chair.must({ type: 'begin', step: 'abutment-primer' });
  expect(chair.unit.now.prep).toBe('coated');
  expect(chair.refusedFor({ type: 'begin', step: 'mix' })).toBe('prep-not-ready');
});

// Found by the random sequences: forced on to a prep that was not clean yet, it was done for good.
test('cleaning or roughening the prep takes a primer with it, and it is due again', () => {
  const chair = chairOn('amalgam-core', 'adhesive-resin-dual').until('pumice');
  chair.say({ type: 'begin', step: 'core-primer' });
  for (let turns = 0; turns < 6 && chair.unit.steps['core-primer'] === undefined; turns += 1) {
    chair.say({ type: 'override', reason: 'clinical-judgement' });
    if (chair.say({ type: 'confirm' }).kind === 'accepted') {
      chair.wait(30).must({ type: 'finish', step: 'core-primer' });
    }
  }
  expect(chair.unit.steps['core-primer']).toBe('done');
  chair.must({ type: 'finish', step: 'pumice' });
  expect(chair.unit.steps['core-primer']).toBe('again');
});

// Found by the random sequences: a primer cut short by a second let the adhesive on.
test('a primer cut short has primed nothing', () => {
  const chair = chairOn('amalgam-core', 'adhesive-resin-dual').until('core-primer');
  chair.must({ type: 'begin', step: 'core-primer' }).wait(5);
  chair.must({ type: 'short', reason: 'patient-comfort' });
  expect(chair.step).toBe('core-primer');
  expect(chair.refusedFor({ type: 'begin', step: 'bond' })).toBe('first');
});

// Found by the sweep: the time of a primer that was cleaned off ran on, and counted.
test('a primer cleaned off while its time runs is not served', () => {
  const chair = chairOn('amalgam-core', 'adhesive-resin-dual').until('core-primer');
  chair.must({ type: 'begin', step: 'core-primer' }).must({ type: 'finish', step: 'prep-clean' });
  expect(chair.wait(60).refusedFor({ type: 'finish', step: 'core-primer' })).toBe('no-dwell');
});

// Found by the sweep with two dwells at once: the adhesive went on over it, and was thinned, and it ran on.
test('a primer put on once more must be served before the adhesive', () => {
  const chair = chairOn('amalgam-core', 'adhesive-resin-dual').until('core-primer').doStep();
  chair.must({ type: 'begin', step: 'core-primer' }).wait(5);
  expect(chair.refusedFor({ type: 'begin', step: 'bond' })).toBe('first');
  chair.wait(60).must({ type: 'finish', step: 'core-primer' });
  chair.must({ type: 'begin', step: 'bond' });
});
