/**
 * Where a unit stands, worked out backwards from what was carried out: for each thing that landed on
 * a surface, is there a later act that took it off, and did everything else follow in order?
 */
import type { CaseFile, Contaminant, RefusalId, StepId } from '../../machines/contract/index.ts';
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
const COATS: readonly StepId[] = ['silane', 'zirconia-primer'];

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

/** What each material's treatment takes off. Sources: Klosa 2009 (glass), Yang 2008, Quaas 2007, common practice (zirconia). */
function takesOff(unit: Facts, step: StepId, what: Contaminant): boolean {
  if (unit.material === 'lithium-disilicate') {
    if (step === 'porcelain-etch') return true;
    return step === 'acid-clean' && !['fit-paste', 'cement', 'blood'].includes(what);
  }
  if (step === 'abrade') return true;
  return step === 'cleaner' && !['fit-paste', 'cement'].includes(what);
}

const texturing = (unit: Facts): StepId =>
  unit.material === 'lithium-disilicate' ? 'porcelain-etch' : 'abrade';

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
  const asCame = unit.material === 'lithium-disilicate' ? 'etched' : 'abraded';
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

/** Which primer the ceramic and the cement need; null when none. */
export function primerFor({ unit, shelf }: Omit<Chair, 'acts'>): StepId | null {
  const cement = shelf.cements.find(({ label }) => label === unit.cement);
  if (cement?.class === 'resin-modified-glass-ionomer') return null;
  if (unit.material === 'lithium-disilicate') return 'silane';
  return cement?.carriesPhosphate === true ? null : 'zirconia-primer';
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
  const primer = primerFor(chair);
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

/** True when the tooth side is conditioned as the cement needs, all after whatever last touched it. */
export function prepReady({ acts, unit, shelf }: Chair): boolean {
  const touched = Math.max(
    lastOf(acts, (act) => act.what === 'soil' && act.surface === 'prep'),
    lastOf(acts, (act) => act.what === 'start-over'),
    last(acts, 'begin', 'try-in', 'pumice'),
  );
  const cleaned = last(acts, 'finish', 'pumice', 'prep-clean');
  if (cleaned < touched || cleaned < 0) return false;
  const acid = last(acts, 'begin', 'tooth-etch');
  const served = first(acts, acid, 'finish', 'tooth-etch');
  const rinsed = first(acts, served, 'finish', 'tooth-etch-rinse');
  const cement = shelf.cements.find(({ label }) => label === unit.cement);
  if (cement?.class !== 'adhesive-resin-dual') {
    const off = last(acts, 'finish', 'tooth-etch-rinse');
    return (
      last(acts, 'finish', 'prep-moist') > Math.max(cleaned, acid) && Math.max(off, cleaned) >= acid
    );
  }
  const etches = shelf.phosphoricAcid !== null || unit.substrate !== 'dentin';
  const etched = acid > cleaned && served > acid && rinsed > served;
  if (etches && !etched) return false;
  const bond = last(acts, 'begin', 'bond');
  const rubbed = first(acts, bond, 'finish', 'bond');
  const thinned = first(acts, rubbed, 'finish', 'bond-thin');
  return bond > (etches ? rinsed : cleaned) && rubbed > bond && thinned > rubbed;
}

/** True when the tooth was cleaned after whatever last landed on it. */
export function prepClean({ acts }: Chair): boolean {
  const touched = Math.max(
    lastOf(acts, (act) => act.what === 'soil' && act.surface === 'prep'),
    lastOf(acts, (act) => act.what === 'start-over'),
    last(acts, 'begin', 'try-in', 'pumice'),
  );
  return last(acts, 'finish', 'pumice', 'prep-clean') > touched;
}

/** True when the field was isolated, then watched dry, with nothing wet since the watch began. */
export function fieldDry({ acts }: Chair): boolean {
  const isolated = last(acts, 'finish', 'isolate');
  const shown = last(acts, 'finish', 'dry-check');
  const watch = last(acts.slice(0, Math.max(0, shown)), 'begin', 'dry-check');
  const wet = Math.max(
    lastOf(acts, (act) => act.what === 'soil' && act.surface !== 'intaglio'),
    lastOf(acts, (act) => act.what === 'start-over'),
    last(acts, 'begin', 'try-in', 'pumice'),
    last(acts, 'finish', 'pumice', 'prep-clean', 'isolation-out'),
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
