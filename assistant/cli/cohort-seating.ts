import type { StepId } from '../../machines/contract/index.ts';
import type { InventedChair } from './cohort-chair.ts';
import type { Slip } from './cohort-slips.ts';

/** Done as they begin. */
const MOMENTS: readonly StepId[] = ['mix', 'load'];
/** Longer than any appointment has steps, cleaning again and again included. */
const MOST_TURNS = 160;
/** Seconds that a look or an act without a clock takes, about. */
const ACT_S = 14;

/** Serves a dwell: over its aim by a little, early, short or long. Whether it was ended. */
function serve(chair: InventedChair, step: StepId, slip: Slip | null): boolean {
  const window = chair.windowOf(step);
  if (window === null) return chair.insist({ type: 'finish', step });
  const running = chair.unit.dwells.find((one) => one.step === step);
  // What is counted from the mix has partly been served when it begins.
  const servedS = ((running?.creditMs ?? 0) + chair.at - (running?.startedAt ?? chair.at)) / 1000;
  const until = (seconds: number): void => chair.wait(Math.max(0.2, seconds - servedS));
  const { minS, targetS, maxS } = window;
  if (slip?.kind === 'short' && minS * slip.share > servedS) {
    const seconds = minS * slip.share;
    until(seconds);
    const reason = 'patient-comfort';
    if (chair.insist({ type: 'short', step, reason })) {
      chair.done.push({
        grade: 'short',
        step,
        refusal: null,
        measured: { seconds, minS, targetS, maxS },
      });
      return true;
    }
  }
  if (slip?.kind === 'long' && maxS !== null) {
    until(maxS * slip.times);
    chair.done.push({ grade: 'long', step, refusal: null, measured: null });
    return chair.insist({ type: 'finish', step });
  }
  if (slip?.kind === 'early' && minS - servedS > 6) {
    until(minS - 4);
    chair.say({ type: 'finish', step });
    chair.wait(4 + targetS - minS);
  } else until(targetS);
  // People say "done" a moment after the call, within the window.
  const room = maxS === null ? 6 : Math.max(0.3, Math.min(6, (maxS - targetS) * 0.5));
  chair.wait(Math.min(room, chair.chance.around(1.6)));
  return chair.insist({ type: 'finish', step });
}

/** What had gone stale when it was used, as those at the chair could have known. */
function stale(chair: InventedChair, step: StepId): void {
  for (const { id, goodFor } of chair.unit.plan.steps) {
    const ended = chair.ended.get(id);
    if (goodFor === null || ended === undefined || !goodFor.before.includes(step)) continue;
    chair.ended.delete(id);
    if (chair.at - ended <= goodFor.seconds * 1000) continue;
    chair.done.push({ grade: 'late', step, refusal: null, measured: null, since: id });
  }
}

/** What comes before a step goes wrong. */
function before(chair: InventedChair, slip: Slip | null): void {
  if (slip?.kind === 'wait') chair.wait(slip.seconds);
  if (slip?.kind === 'past-working') {
    chair.wait(chair.unit.plan.cement.workingS + chair.chance.between(10, 60));
    chair.done.push({ grade: 'late', step: 'seat', refusal: null, measured: null, since: 'mix' });
  }
  if (slip?.kind === 'soil-prep')
    chair.say({ type: 'soil', surface: 'prep', contaminant: 'saliva' });
  if (slip?.kind === 'soil-intaglio' || slip?.kind === 'withdraw') {
    chair.say({ type: 'soil', surface: 'intaglio', contaminant: 'saliva' });
    chair.wait(2);
  }
  if (slip?.kind === 'withdraw') chair.insist({ type: 'undo' });
}

/** Does the step that is due, or slips. Whether anything came of it. */
function doStep(chair: InventedChair, step: StepId, slip: Slip | null): boolean {
  before(chair, slip);
  if (slip?.kind === 'skip') return chair.skip(step);
  if (slip?.kind === 'instead') {
    for (const other of [slip.agent, slip.rinse]) {
      if (chair.insist({ type: 'begin', step: other })) serve(chair, other, null);
    }
    return chair.skip(step);
  }
  if (slip?.kind === 'counts-clean') {
    const said = chair.insist({ type: 'counts-clean', reason: 'clinical-judgement' });
    if (said) {
      chair.done.push({ grade: 'not done', step: 'cleaner', refusal: null, measured: null });
      return true;
    }
  }
  // Saliva makes other steps due: those come first.
  if (slip?.kind === 'soil-intaglio') return true;
  chair.wait(chair.chance.around(MOMENTS.includes(step) ? 3 : 5));
  stale(chair, step);
  if (MOMENTS.includes(step)) return chair.insist({ type: 'begin', step });
  const window = chair.windowOf(step);
  if (window === null && step !== 'try-in') {
    chair.wait(chair.chance.around(ACT_S));
    return chair.insist({ type: 'finish', step });
  }
  if (!chair.insist({ type: 'begin', step })) return false;
  if (window === null) chair.wait(chair.chance.around(ACT_S));
  const served = serve(chair, step, slip);
  if (served) chair.ended.set(step, chair.at);
  return served;
}

/**
 * An appointment from the first step to the last, with its slips. What can't be carried out is left
 * out, as people do; a case whose steps can't all be settled stays open. Whether it was closed.
 */
export function seat(
  chair: InventedChair,
  slips: ReadonlyMap<StepId, Slip>,
  cement: string,
): boolean {
  const slipped = new Set<StepId>();
  const putOff = new Map<StepId, StepId>();
  for (let turns = 0; turns < MOST_TURNS; turns += 1) {
    const { step } = chair;
    if (step === null) break;
    const slip = slipped.has(step) ? null : (slips.get(step) ?? null);
    slipped.add(step);
    if (slip?.kind === 'after') {
      putOff.set(slip.step, step);
      chair.skip(step);
      // It is done later after all: out of order, not left out.
      chair.done.pop();
      continue;
    }
    if (step === 'lots' && slip === null && chair.chance.hits(0.7)) {
      const lot = chair.state.case.shelf.cements.find(({ label }) => label === cement)?.lot;
      if (lot !== undefined) chair.say({ type: 'lot', item: cement, lot });
    }
    if (!doStep(chair, step, slip) && chair.step === step && !chair.skip(step)) break;
    const late = putOff.get(step);
    if (late !== undefined) {
      putOff.delete(step);
      chair.wait(chair.chance.around(ACT_S));
      if (!chair.insist({ type: 'finish', step: late })) {
        chair.done.push({ grade: 'not done', step: late, refusal: null, measured: null });
      }
    }
  }
  chair.wait(chair.chance.around(20));
  return chair.say({ type: 'close' }).kind === 'accepted';
}
