/**
 * The eleven laws said a second time, as plain questions to the record. Each answers what it found
 * broken, in a sentence; nothing when it held. Overrides kept as deviations excuse what law 10 lets
 * them excuse: everything but laws 2 and 3.
 */
import type { Plan, RefusalId, StepId } from '../../machines/contract/index.ts';
import { familyOf } from './materials.ts';
import { NEVER } from './never.ts';
import type { Act } from './record.ts';
import { agents, light, primers } from './steps.ts';
import { servedS } from './served.ts';
import {
  type Chair,
  fieldDry,
  INTAGLIO_ANSWERS,
  intaglioFault,
  lyingAgent,
  peroxideLeft,
  place,
  prepClean,
  prepReady,
  remains,
  textured,
} from './surfaces.ts';

type Planned = Plan['units'][number];
/** What a law is asked about: one act, and the unit as it stood when the act came. */
export interface Asked {
  readonly act: Act;
  readonly chair: Chair;
  readonly plan: Planned;
}
export type Law = (asked: Asked) => string | null;

const begins = (act: Act, ...steps: StepId[]): boolean =>
  act.what === 'begin' && act.step !== null && steps.includes(act.step);
const stepsOf = (plan: Planned): readonly StepId[] => plan.steps.map(({ id }) => id);
const carries = (act: Act, ids: readonly RefusalId[]): boolean =>
  act.overrode.some((id) => ids.includes(id));

/** An override on this act, or on the loading of the cement that is in the crown, answers for the inner surface. */
function answered({ act, chair }: Asked): boolean {
  if (carries(act, INTAGLIO_ANSWERS)) return true;
  if (!begins(act, 'seat')) return false;
  const load = chair.acts.findLastIndex((one) => begins(one, 'load'));
  const loading = chair.acts[load];
  const soiled = chair.acts
    .slice(load + 1)
    .some(
      (one) => one.what === 'start-over' || (one.what === 'soil' && one.surface === 'intaglio'),
    );
  return loading !== undefined && !soiled && carries(loading, INTAGLIO_ANSWERS);
}

/** 1: forbids seating a crown whose inside is not clean, conditioned, dry and primed since it was last soiled. */
export const law1: Law = (asked) => {
  if (!begins(asked.act, 'seat') || answered(asked)) return null;
  const fault = intaglioFault(asked.chair);
  return fault === null ? null : `seated on an intaglio that is ${fault}`;
};

/** 2: forbids cleaner, acids and blasting on a crown that is in the mouth, and any of them going into it. */
export const law2: Law = ({ act, chair }) => {
  const { step } = act;
  const there = place(chair);
  const blasts = step === 'abrade' || step === 'base-abrade';
  const caustic = step !== null && (blasts || agents.includes(step)) && act.what !== 'skip';
  if (caustic && (act.what === 'begin' || blasts) && there !== 'bench') {
    return `${step} ${act.what} while it is in the ${there}`;
  }
  const agent = lyingAgent(chair);
  return begins(act, 'try-in', 'seat') && agent !== null ? `${step} with ${agent} still on` : null;
};

/**
 * 3: forbids hydrofluoric acid where there is no glass to etch, phosphoric acid on an oxide, silane
 * where there is no silica, primer over phosphoric acid on an oxide, blasting glass.
 */
export const law3: Law = ({ act, chair }) => {
  const { step } = act;
  const family = familyOf(chair.unit);
  const acid = remains(chair).some(({ what }) => what === 'acid');
  if (act.what === 'counts-clean' && family === 'oxide' && acid) {
    return 'phosphoric acid counted clean';
  }
  if (step === null || act.what === 'skip') return null;
  const glass = family === 'glass' || family === 'network';
  if (step === 'abrade') return glass ? 'a glass-ceramic was blasted' : null;
  if (step === 'porcelain-etch') return glass ? null : `${step} on ${chair.unit.material}`;
  if (step === 'acid-clean' && family === 'oxide') return `${step} on ${chair.unit.material}`;
  if (step === 'silane' && !glass && family !== 'resin') return `silane on ${chair.unit.material}`;
  const coats = begins(act, 'zirconia-primer', 'metal-primer');
  return family === 'oxide' && coats && acid ? 'primer straight after phosphoric acid' : null;
};

/** 4: forbids cementing or priming over silicone that was not etched off (glass) or blasted off (zirconia). */
export const law4: Law = (asked) => {
  const { act, chair } = asked;
  if (act.what === 'counts-clean' && !carries(act, INTAGLIO_ANSWERS)) {
    return remains(chair).some(({ what }) => what === 'fit-paste')
      ? 'silicone counted clean'
      : null;
  }
  if (!begins(act, 'mix', 'load', 'seat', ...primers) || answered(asked)) return null;
  if (remains(chair).some(({ what }) => what === 'fit-paste')) return `${act.step} over silicone`;
  const silicone = chair.acts.some((one) => one.step === 'fit-paste' && one.what !== 'skip');
  return silicone && !textured(chair) ? `${act.step} on a surface silicone has voided` : null;
};

/** 5: forbids conditioning, bonding or cementing on what an earlier state had promised before something landed. */
export const law5: Law = (asked) => {
  const { act, chair, plan } = asked;
  if (begins(act, ...primers, 'mix', 'load') && !answered(asked) && remains(chair).length > 0) {
    return `${act.step} on an intaglio with ${remains(chair)
      .map(({ what }) => what)
      .join(', ')} on it`;
  }
  const oxygen = begins(act, 'bond', 'mix', 'load', 'seat') && peroxideLeft(chair, plan);
  if (oxygen && !carries(act, ['peroxide-on-tooth'])) return `${act.step} over peroxide`;
  const excused = carries(act, ['prep-not-clean', 'prep-not-ready', 'first']);
  if (
    begins(act, 'tooth-etch', 'core-primer', 'abutment-primer', 'bond', 'prep-moist', 'prep-dry') &&
    !excused &&
    !prepClean(chair, stepsOf(plan))
  ) {
    return `${act.step} on a prep that was not cleaned since something landed on it`;
  }
  return null;
};

/** 6: forbids mixing before both surfaces are ready and the field is dry, and seating cement past its time. */
export const law6: Law = (asked) => {
  const { act, chair, plan } = asked;
  if (!begins(act, 'mix', 'seat')) return null;
  if (!answered(asked) && intaglioFault(chair) !== null) {
    return `${act.step} with an intaglio that is ${intaglioFault(chair)}`;
  }
  if (!carries(act, ['prep-not-ready']) && !prepReady(chair, stepsOf(plan)))
    return `${act.step} on an unready prep`;
  if (!carries(act, ['field-open', 'field-wet']) && !fieldDry(chair, stepsOf(plan)))
    return `${act.step} in the wet`;
  if (act.step !== 'seat') return null;
  const given = chair.acts.findLastIndex((one) => one.what === 'start-over');
  const mixed = chair.acts.slice(given + 1).findLast((one) => begins(one, 'mix'));
  const late = mixed !== undefined && act.at - mixed.at > plan.cement.workingS * 1000;
  return late && !carries(act, ['working-time-over', 'not-mixed'])
    ? 'seated in cement past its working time'
    : null;
};

/** 7: forbids a dwell counted as done before its least; short asks for a reason; an early end is never silent. */
export const law7: Law = ({ act, chair, plan }) => {
  if (act.step === null) return null;
  if (act.what === 'short') {
    const { deviation } = act;
    return deviation?.kind === 'short' && deviation.reason !== null && act.readBack
      ? null
      : 'short without a reason read back';
  }
  if (act.what !== 'finish') return null;
  const planned = [...plan.steps, ...plan.spare].find(({ id }) => id === act.step);
  if (planned?.dwell === undefined || planned.dwell === null) return null;
  const served = servedS(chair.acts, planned.id, planned.dwell, act.at);
  if (served === null) return `${act.step} done without having begun`;
  if (served < planned.dwell.minS) return `${act.step} done after ${served} s`;
  const long = planned.dwell.maxS !== null && served > planned.dwell.maxS;
  const noted = act.deviation !== null;
  return long && !noted ? `${act.step} ran ${served} s and nothing notes it` : null;
};

/** 8: forbids hydrofluoric acid, mixing, seating and the first light of a full cure without a yes to the read-back. */
export const law8: Law = ({ act, chair }) => {
  const since = chair.acts.findLastIndex((one) => begins(one, 'seat'));
  const lit = chair.acts.slice(since + 1).some((one) => begins(one, ...light));
  const final = begins(act, 'porcelain-etch', 'mix', 'seat') || (begins(act, ...light) && !lit);
  return final && !act.readBack ? `${act.step} was not read back` : null;
};

/** 10: forbids an override that is not kept with its reason, or that touches laws 2 and 3. */
export const law10: Law = ({ act }) => {
  if (act.overrode.length === 0) return null;
  const { deviation } = act;
  if (act.overrode.some((id) => NEVER.includes(id))) return `${act.overrode.join(', ')} overridden`;
  if (deviation === null || deviation.reason === null) return 'an override left no deviation';
  const kept = [deviation.refusal?.id, ...(deviation.also ?? [])];
  const missing = act.overrode.filter((id) => !kept.includes(id));
  return missing.length > 0 ? `overrode ${missing.join(', ')}, which no deviation names` : null;
};

/** 11: forbids a dwell counted as done before the least that the instructions on the shelf give. */
export const law11: Law = ({ act, chair, plan }) => {
  if (act.what !== 'finish' || act.step === null) return null;
  const { shelf } = chair;
  const ifu = {
    abrade: shelf.abrasion?.ifu,
    cleaner: shelf.cleaner?.ifu,
    'porcelain-etch': shelf.hydrofluoricAcid?.ifu,
    'acid-clean': shelf.phosphoricAcid?.ifu,
    silane: shelf.silane?.ifu,
    'zirconia-primer': shelf.phosphatePrimer?.ifu,
    'metal-primer': shelf.metalPrimer?.ifu,
    bond: shelf.adhesive?.ifu,
  };
  const least = Object.entries(ifu).find(([step]) => step === act.step)?.[1]?.minS;
  const dwell = [...plan.steps, ...plan.spare].find(({ id }) => id === act.step)?.dwell;
  if (least === undefined || dwell === undefined || dwell === null) return null;
  const served = servedS(chair.acts, act.step, dwell, act.at) ?? 0;
  return served < least ? `${act.step} done before the ${least} s of its instructions` : null;
};
