/**
 * Where a unit stands, worked out backwards from what was carried out: for each thing that landed on
 * a surface, is there a later act that took it off, and did everything else follow in order?
 */
import type {
  CaseFile,
  Contaminant,
  RefusalId,
  StepId,
  UnitPlan,
} from '../../machines/contract/index.ts';
import { primerFor, takesOff, texturing } from './materials.ts';
import type { Act } from './record.ts';

export type Facts = CaseFile['units'][number];
export type Shelf = CaseFile['shelf'];

/** One unit's acts so far. */
export interface Chair {
  readonly acts: readonly Act[];
  readonly unit: Facts;
  readonly shelf: Shelf;
}

const last = (acts: readonly Act[], what: Act['what'], ...steps: StepId[]): number =>
  acts.findLastIndex((act) => act.what === what && act.step !== null && steps.includes(act.step));
const first = (
  acts: readonly Act[],
  from: number,
  what: Act['what'],
  ...steps: StepId[]
): number => {
  const at = acts
    .slice(from + 1)
    .findIndex(
      (act) => act.what === what && act.step !== null && steps.includes(act.step) && earns(act),
    );
  return at < 0 ? -1 : at + from + 1;
};
/** A step the plan never had, let through by an override, has no time to serve: it earns nothing. Water is water. */
const earns = ({ step, overrode }: Act): boolean =>
  !overrode.includes('not-planned') || (step !== null && RINSES.includes(step));
const lastOf = (acts: readonly Act[], test: (act: Act) => boolean): number =>
  acts.findLastIndex(test);

export const CAUSTIC: readonly StepId[] = ['cleaner', 'acid-clean', 'porcelain-etch'];
const RINSES: readonly StepId[] = ['cleaner-rinse', 'acid-clean-rinse', 'porcelain-etch-rinse'];
const COATS: readonly StepId[] = ['silane', 'zirconia-primer', 'metal-primer'];

/** In the mouth from the try-in until it is taken out; seated from the seat until all is given up. */
export function place({ acts }: Pick<Chair, 'acts'>): 'bench' | 'mouth' | 'seated' {
  const moved = lastOf(
    acts,
    ({ what, step }) =>
      what === 'start-over' ||
      (what === 'begin' && (step === 'try-in' || step === 'seat')) ||
      (what === 'finish' && step === 'take-out'),
  );
  const act = acts[moved];
  if (act?.step === 'seat') return 'seated';
  if (act?.step === 'try-in') return 'mouth';
  if (act?.what !== 'start-over') return 'bench';
  // Giving up frees a seated crown; one tried in stays where it is.
  return place({ acts: acts.slice(0, moved) }) === 'mouth' ? 'mouth' : 'bench';
}

/** The caustic agent that was put on and has not been rinsed off since; null when there is none. */
export function lyingAgent({ acts }: Chair): StepId | null {
  const on = last(acts, 'begin', ...CAUSTIC);
  const off = last(acts, 'finish', ...RINSES);
  return on > off ? (acts[on]?.step ?? null) : null;
}

const isSoil = (act: Act): boolean =>
  (act.what === 'soil' && act.surface === 'intaglio') || act.what === 'start-over';

interface Treatment {
  readonly step: StepId;
  readonly from: number;
  readonly done: number;
}

/** Agents put on, left for their time, and rinsed off with nothing landing in between; blasts finished. */
function treatments({ acts }: Chair): Treatment[] {
  return acts.flatMap((act, end): Treatment[] => {
    const { step } = act;
    if (act.what !== 'finish' || step === null || !earns(act)) return [];
    if (step === 'abrade')
      return [{ step, from: last(acts.slice(0, end), 'begin', step), done: end }];
    if (!CAUSTIC.includes(step)) return [];
    const from = last(acts.slice(0, end), 'begin', step);
    const done = first(acts, end, 'finish', ...RINSES);
    const between = acts.slice(from + 1, done);
    const spoilt = between.some(
      (one) =>
        isSoil(one) || (one.what === 'begin' && one.step !== null && CAUSTIC.includes(one.step)),
    );
    return done < 0 || spoilt ? [] : [{ step, from, done }];
  });
}

interface Landed {
  readonly at: number;
  readonly what: Contaminant;
}

/** Everything that ever landed on the inner surface. Handling by many hands comes before the first act. */
export function landings({ acts, unit }: Chair): Landed[] {
  const tryIn = first(acts, -1, 'begin', 'try-in');
  const reported = acts.slice(0, Math.max(0, tryIn)).some(isSoil);
  // The case may say why its first try-in does not count; that covers handling and that try-in only.
  const excused = unit.countsCleanReason !== undefined && tryIn >= 0 && !reported;
  const handling: Landed[] = excused ? [] : [{ at: -1, what: 'glove' }];
  return [
    ...handling,
    ...acts.flatMap((act, at): Landed[] => {
      if (act.what === 'start-over') return [{ at, what: 'cement' }];
      if (act.what === 'soil' && act.surface === 'intaglio') {
        return [{ at, what: act.contaminant ?? 'saliva' }];
      }
      if (act.step === 'try-in' && act.what === 'begin') {
        return excused && at === tryIn ? [] : [{ at, what: 'saliva' }];
      }
      const paste = act.what === 'begin' || act.what === 'finish';
      return act.step === 'fit-paste' && paste ? [{ at, what: 'fit-paste' }] : [];
    }),
  ];
}

/** What is still on the inner surface. */
export function remains(chair: Chair): Landed[] {
  const done = treatments(chair);
  const counted = lastOf(chair.acts, (act) => act.what === 'counts-clean');
  return landings(chair).filter(
    ({ at, what }) =>
      counted <= at &&
      !done.some(({ step, from }) => from > at && takesOff(chair.unit, step, what)),
  );
}

/** Etched or abraded as the material needs, with no silicone or cement on it since (law 4). */
export function textured(chair: Chair): boolean {
  const { unit } = chair;
  const kind = texturing(unit);
  const voided = landings(chair).findLast(({ what }) => what === 'fit-paste' || what === 'cement');
  const made = treatments(chair).some(
    ({ step, from }) => step === kind && from > (voided?.at ?? -1),
  );
  const asCame = kind === 'porcelain-etch' ? 'etched' : 'abraded';
  return made || (voided === undefined && unit.intaglioFromLab === asCame);
}

/** Index of the drying that followed the last water or blast; -1 when it is wet. */
function driedAt({ acts }: Chair): number {
  const wet = lastOf(
    acts,
    ({ what, step }) =>
      what === 'counts-clean' ||
      (step === 'try-in' && what === 'begin') ||
      (step === 'abrade' && (what === 'begin' || what === 'finish')) ||
      (step === 'intaglio-rinse' && what === 'begin') ||
      (step !== null && what === 'begin' && CAUSTIC.includes(step)) ||
      (step !== null && what !== 'skip' && RINSES.includes(step)),
  );
  return first(acts, wet, 'finish', 'intaglio-dry');
}

/** The refusal words an override would have had to answer for a fault of the inner surface. */
export type Fault = 'soiled' | 'silicone' | 'agent' | 'bare' | 'wet' | 'unprimed';

/** What is wrong with the inner surface for cementing; null when it is clean, conditioned and primed. */
export function intaglioFault(chair: Chair, primed = true): Fault | null {
  const { acts } = chair;
  if (lyingAgent(chair) !== null) return 'agent';
  const on = remains(chair);
  if (on.some(({ what }) => what === 'fit-paste')) return 'silicone';
  if (on.length > 0) return 'soiled';
  if (!textured(chair)) return 'bare';
  const dry = driedAt(chair);
  if (dry < 0) return 'wet';
  const primer = primerFor(chair.unit, chair.shelf);
  if (!primed || primer === null) {
    return primed &&
      last(acts, 'begin', ...COATS) > Math.max(dry, last(acts, 'finish', 'primer-dry'))
      ? 'wet'
      : null;
  }
  const soiled = lastOf(acts, isSoil);
  const coat = last(acts, 'begin', ...COATS);
  const served = first(acts, coat, 'finish', primer);
  const aired = first(acts, served, 'finish', 'primer-dry');
  const right = acts[coat]?.step === primer && coat > Math.max(dry, soiled);
  return right && served > coat && aired > served ? null : 'unprimed';
}

/** What makes a tooth, a core or an abutment clean. */
const CLEANING: readonly StepId[] = ['pumice', 'abutment-clean', 'base-abrade'];
const CLEANED: readonly StepId[] = [...CLEANING, 'prep-clean'];

/** Index of whatever last soiled the tooth side. */
const soiledPrep = (acts: readonly Act[]): number =>
  Math.max(
    lastOf(acts, (act) => act.what === 'soil' && act.surface === 'prep'),
    lastOf(acts, (act) => act.what === 'start-over'),
    last(acts, 'begin', 'try-in'),
  );

/** A bridge on teeth and abutments: each kind of retainer is cleaned by its own step. */
function cleanedApart(acts: readonly Act[]): number {
  const soiled = soiledPrep(acts);
  const ends = [['pumice', 'prep-clean'] as const, ['abutment-clean'] as const].map((steps) => {
    const end = last(acts, 'finish', ...steps);
    return end > Math.max(soiled, last(acts, 'begin', steps[0])) ? end : -1;
  });
  return ends.includes(-1) ? -1 : Math.max(...ends);
}

/** Index of the act that last cleaned the tooth side; -1 when something has touched it since. */
function cleanedAt(acts: readonly Act[], planned: readonly StepId[]): number {
  if (planned.includes('pumice') && planned.includes('abutment-clean')) return cleanedApart(acts);
  const touched = Math.max(soiledPrep(acts), last(acts, 'begin', ...CLEANING));
  const cleaned = lastOf(
    acts,
    (act) =>
      act.what === 'finish' &&
      act.step !== null &&
      CLEANED.includes(act.step) &&
      // A blast that no plan had has no time to serve, and cleans nothing.
      (act.step !== 'base-abrade' || earns(act)),
  );
  return cleaned > touched ? cleaned : -1;
}

/** True when the tooth side is conditioned as its plan says for this cement, all after whatever last touched it. */
export function prepReady({ acts }: Chair, planned: readonly StepId[]): boolean {
  const cleaned = cleanedAt(acts, planned);
  if (cleaned < 0) return false;
  const soiled = soiledPrep(acts);
  const asked = (...steps: StepId[]): StepId | undefined =>
    steps.find((step) => planned.includes(step));
  // A step left out has its reason in the record.
  const leftOut = (step: StepId): boolean => last(acts, 'skip', step) > soiled;
  if (asked('prep-roughen') !== undefined && !leftOut('prep-roughen')) {
    if (last(acts, 'finish', 'prep-roughen') < soiled) return false;
  }
  const acid = last(acts, 'begin', 'tooth-etch');
  const etched = acid < 0 ? -1 : first(acts, acid, 'finish', 'tooth-etch');
  // Water alone, by an override, is water: it undoes nothing that acid had not done.
  const rinsed = etched < 0 ? -1 : first(acts, etched, 'finish', 'tooth-etch-rinse');
  if (asked('tooth-etch') !== undefined && !(acid > cleaned && etched > acid && rinsed > etched)) {
    return false;
  }
  const off = last(acts, 'finish', 'tooth-etch-rinse');
  if (acid > cleaned && off < acid) return false;
  let from = Math.max(cleaned, rinsed);
  // A bridge may have both: each retainer its own.
  for (const primer of ['core-primer', 'abutment-primer'] as const) {
    if (!planned.includes(primer) || leftOut(primer)) continue;
    const on = last(acts, 'begin', primer);
    const rubbed = first(acts, on, 'finish', primer);
    if (!(on > cleaned && rubbed > on)) return false;
    from = Math.max(from, rubbed);
  }
  if (asked('bond') === undefined) {
    const end = asked('prep-moist', 'prep-dry') ?? 'prep-moist';
    return last(acts, 'finish', end) > Math.max(from, acid);
  }
  const bond = last(acts, 'begin', 'bond');
  const rubbed = first(acts, bond, 'finish', 'bond');
  const thinned = first(acts, rubbed, 'finish', 'bond-thin');
  return bond > Math.max(from, acid) && rubbed > bond && thinned > rubbed;
}

/** True when the tooth was cleaned after whatever last landed on it. */
export function prepClean({ acts }: Chair, planned: readonly StepId[]): boolean {
  return cleanedAt(acts, planned) >= 0;
}

/** Section 2: what bonds by resin does not bond to a tooth that peroxide has been on. */
const BONDS_BY_RESIN = [
  'resin-modified-glass-ionomer',
  'adhesive-resin-light',
  'adhesive-resin-dual',
  'adhesive-resin-self',
  'self-adhesive-resin',
];
const NO_TOOTH = ['titanium-abutment', 'zirconia-abutment', 'titanium-base'];

/** Peroxide that has been on a tooth under such a cement; only an override answers for it, and once. */
export function peroxideLeft({ acts, unit }: Chair, { steps, cement }: UnitPlan): boolean {
  const on = [unit.substrate, ...(unit.bridge?.retainers ?? []).map((one) => one.substrate)];
  const tooth = on.some((one) => one !== undefined && !NO_TOOTH.includes(one));
  if (!BONDS_BY_RESIN.includes(cement.class) || !tooth) return false;
  const provisional = steps.some(({ id }) => id === 'provisional-off');
  const bare = provisional ? first(acts, -1, 'finish', 'provisional-off') : -1;
  if (provisional && bare < 0) return false;
  const landed = acts.findLastIndex(
    (act, n) =>
      n > bare &&
      act.what === 'soil' &&
      act.surface === 'prep' &&
      act.contaminant === 'peroxide' &&
      place({ acts: acts.slice(0, n) }) !== 'seated',
  );
  const answered = lastOf(acts, ({ overrode }) => overrode.includes('peroxide-on-tooth'));
  return landed >= 0 && landed > answered;
}

/** True when the field was isolated, then watched dry, with nothing wet since the watch began. */
export function fieldDry({ acts }: Chair, planned: readonly StepId[]): boolean {
  // What is bonded on the bench, to a titanium base, has no field.
  if (!planned.includes('isolate')) return true;
  const isolated = last(acts, 'finish', 'isolate');
  const shown = last(acts, 'finish', 'dry-check');
  const watch = last(acts.slice(0, Math.max(0, shown)), 'begin', 'dry-check');
  const wet = Math.max(
    lastOf(acts, (act) => act.what === 'soil' && act.surface !== 'intaglio'),
    lastOf(acts, (act) => act.what === 'start-over'),
    last(acts, 'begin', 'try-in', 'pumice', 'abutment-clean', 'prep-roughen'),
    last(acts, 'finish', 'pumice', 'abutment-clean', 'prep-roughen', 'prep-clean', 'isolation-out'),
  );
  const out = last(acts, 'finish', 'isolation-out');
  return isolated > out && watch > Math.max(isolated, wet) && shown > watch;
}

/** Refusals whose override answers for the inner surface. */
export const INTAGLIO_ANSWERS: readonly RefusalId[] = [
  'intaglio-soiled',
  'silicone-needs-etch',
  'silicone-needs-abrasion',
  'intaglio-not-conditioned',
  'intaglio-not-primed',
  'intaglio-wet',
];
