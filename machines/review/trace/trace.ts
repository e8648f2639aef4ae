import type { Entry, Header, StepId, UnitPlan } from '../../contract/index.ts';
import { READ_BACK } from '../../seating/index.ts';
import { cleaningsOf } from '../net/condition.ts';
import { soilLabel, startOverLabel, stepLabel } from '../net/labels.ts';
import type { Activity, Claimed, Forced, Hit, Served, Skipped, Trace } from './activity.ts';
import { Talk } from './effect.ts';
import type { Effect } from './effect.ts';
import * as ledger from './ledger.ts';
import type { Clocks } from './ledger.ts';

/** Steps that take effect as they begin: the crown is in the mouth, the cement is mixed, it is down. */
const AT_BEGIN: readonly StepId[] = ['try-in', 'mix', 'load', 'seat'];

/** More than can be taken back in a row. */
const DEPTH = 40;

/** What can be taken back: the clocks before, and where the lists ended. */
interface Point {
  readonly tooth: string | null;
  readonly step: StepId | null;
  readonly entry: number;
  readonly clocks: Clocks | null;
}

/** Reads a record entry by entry. */
class Reader {
  readonly #plans: ReadonlyMap<string, UnitPlan>;
  readonly #deep: ReadonlyMap<string, ReturnType<typeof cleaningsOf>['deep']>;
  readonly #talk = new Talk();
  readonly #clocks = new Map<string, Clocks>();
  readonly #begun = new Map<string, Entry>();
  #points: readonly Point[] = [];
  activities: Activity[] = [];
  served: Served[] = [];
  skipped: Skipped[] = [];
  forced: Forced[] = [];
  claimed: Claimed[] = [];
  readonly hits: Hit[] = [];
  readonly lots: { item: string; lot: string; entry: number; tooth: string | null }[] = [];
  findings: Trace['findings'] = [];
  closed = false;

  constructor({ plan }: Header) {
    this.#plans = new Map(plan.units.map((unit) => [unit.tooth, unit]));
    this.#deep = new Map(
      plan.units.map((unit) => [unit.tooth, cleaningsOf(unit.material, unit).deep]),
    );
  }

  clocksOf(tooth: string): Clocks {
    return this.#clocks.get(tooth) ?? ledger.NO_CLOCKS;
  }

  #label(plan: UnitPlan, step: StepId): string {
    const shared = ledger.stepOf(plan, step)?.scope === 'case';
    return stepLabel(shared ? null : plan.tooth, step);
  }

  #happen(
    entry: Entry,
    what: Pick<Activity, 'label' | 'tooth' | 'step' | 'soiled'>,
    ran: { readonly begun: Entry | null; readonly served: Served | null },
  ): void {
    const { n, stamp } = entry;
    const { begun, served } = ran;
    this.activities.push({
      label: what.label,
      tooth: what.tooth,
      step: what.step,
      soiled: what.soiled,
      entry: n,
      begun: begun?.n ?? null,
      from: begun?.stamp.at ?? stamp.at,
      at: stamp.at,
      wall: stamp.wall,
      who: stamp.who,
      via: stamp.via,
      servedS: served?.servedS ?? null,
      window: served?.window ?? null,
    });
  }

  /** A step takes effect. */
  #did(entry: Entry, plan: UnitPlan, step: StepId, served: Served | null): void {
    const label = this.#label(plan, step);
    const shared = label === step;
    const begun = this.#begun.get(`${plan.tooth} ${step}`) ?? null;
    const what = { label, tooth: shared ? null : plan.tooth, step, soiled: null };
    this.#happen(entry, what, { begun: begun?.n === entry.n ? null : begun, served });
  }

  #begin(entry: Entry, plan: UnitPlan, step: StepId): void {
    const { tooth } = plan;
    const before = this.clocksOf(tooth);
    this.#begun.set(`${tooth} ${step}`, entry);
    this.#clocks.set(tooth, ledger.begin(before, plan, step, entry));
    const paste = ledger.PASTES.includes(step);
    if (AT_BEGIN.includes(step) || paste) this.#did(entry, plan, step, null);
  }

  #end(entry: Entry, plan: UnitPlan, step: StepId): void {
    const { tooth } = plan;
    const before = this.clocksOf(tooth);
    const dwell = ledger.runs(before, step);
    const window = ledger.windowOf(plan, step);
    const served =
      dwell === null || window === null
        ? null
        : {
            tooth,
            step,
            servedS: ledger.servedS(dwell, entry.stamp.at),
            window,
            begun: dwell.entry,
            entry: entry.n,
          };
    if (served !== null) this.served.push(served);
    else if (window !== null) {
      this.claimed.push({ what: 'unmeasured', tooth, step, entry: entry.n, reason: null });
    }
    this.#clocks.set(tooth, ledger.end(before, step));
    if (AT_BEGIN.includes(step) || before.pastes.includes(step)) return;
    this.#did(entry, plan, step, served);
  }

  #soil(entry: Entry, plan: UnitPlan, effect: Extract<Effect, { readonly act: 'soil' }>): void {
    const { tooth } = plan;
    const { surface, contaminant } = effect.command;
    const deep = surface === 'intaglio' && (this.#deep.get(tooth)?.(contaminant) ?? false);
    this.#clocks.set(tooth, ledger.soil(this.clocksOf(tooth), surface));
    const soiled = { surface, contaminant };
    const label = soilLabel(tooth, surface, deep);
    this.#happen(entry, { label, tooth, step: null, soiled }, { begun: null, served: null });
  }

  #undo(entry: Entry, withdrawn: boolean): void {
    const fits = ({ tooth, step }: Point): boolean => tooth === entry.tooth && step === entry.step;
    const point = this.#points.findLast(fits) ?? this.#points.at(-1);
    if (point === undefined) return;
    const { tooth, entry: n } = point;
    this.#points = this.#points.filter((one) => one !== point);
    if (tooth !== null && point.clocks !== null) this.#clocks.set(tooth, point.clocks);
    const other = (one: { readonly entry: number }): boolean => one.entry !== n;
    if (withdrawn) {
      const { step } = point;
      this.claimed.push({ what: 'withdrawn', tooth, step, entry: entry.n, reason: null });
    }
    this.activities = this.activities.filter(other);
    this.served = this.served.filter(other);
    this.skipped = this.skipped.filter(other);
    this.findings = this.findings.filter(other);
    this.claimed = this.claimed.filter(other);
    this.forced = this.forced.filter(({ entries }) => entries.at(-1) !== n);
  }

  /** Keeps what an undo would bring back; what is final closes the way back on its unit. */
  #remember(entry: Entry, effect: Effect, clocks: Clocks | null): void {
    const { tooth, step, n } = entry;
    const final =
      effect.act === 'start-over' || (effect.act === 'begin' && READ_BACK.includes(effect.step));
    if (final) this.#points = this.#points.filter((point) => point.tooth !== tooth);
    else this.#points = [...this.#points.slice(-DEPTH), { tooth, step, entry: n, clocks }];
  }

  #force(entry: Entry): void {
    if (entry.outcome.kind !== 'accepted') return;
    const { deviation } = entry.outcome;
    if (deviation === null || deviation.refusal === null) return;
    const { refusal, also = [], step, reason } = deviation;
    this.forced.push({
      tooth: entry.tooth,
      step: step ?? entry.step,
      refusals: [...also, refusal.id],
      reason,
      entries: [...this.#talk.refusedAt, entry.n],
    });
  }

  read(entry: Entry): void {
    const effect = this.#talk.hear(entry);
    const { outcome, command, tooth, step, n } = entry;
    if (outcome.kind === 'refused') {
      this.hits.push({ refusal: outcome.refusal.id, tooth, step, entry: n });
    }
    if (outcome.kind !== 'accepted') return;
    if (command.type === 'lot') {
      this.lots.push({ item: command.item, lot: command.lot, entry: n, tooth });
    }
    if (command.type === 'close') this.closed = true;
    if (effect.act === 'nothing') return;
    if (effect.act === 'undo' || effect.act === 'withdraw') {
      this.#undo(entry, effect.act === 'withdraw');
      return;
    }
    const plan = tooth === null ? undefined : this.#plans.get(tooth);
    this.#remember(entry, effect, tooth === null ? null : this.clocksOf(tooth));
    if (plan === undefined) return;
    this.#force(entry);
    if (command.type === 'find') {
      this.findings = [...this.findings, { finding: command.finding, entry: n, tooth: plan.tooth }];
    }
    this.#carry(entry, plan, effect);
  }

  #carry(entry: Entry, plan: UnitPlan, effect: Effect): void {
    const { tooth } = plan;
    const clocks = this.clocksOf(tooth);
    const { at } = entry.stamp;
    const deviation = entry.outcome.kind === 'accepted' ? entry.outcome.deviation : null;
    const reason = deviation?.reason ?? null;
    switch (effect.act) {
      case 'begin':
        return this.#begin(entry, plan, effect.step);
      case 'finish':
      case 'short':
        return this.#end(entry, plan, effect.step);
      case 'soil':
        return this.#soil(entry, plan, effect);
      case 'skip': {
        const shared = this.#label(plan, effect.step) === effect.step;
        const of = shared ? null : tooth;
        this.skipped.push({ tooth: of, step: effect.step, entry: entry.n, reason });
        return undefined;
      }
      case 'counts-clean':
        this.claimed.push({ what: 'counted-clean', tooth, step: null, entry: entry.n, reason });
        return undefined;
      case 'start-over': {
        this.#clocks.set(tooth, ledger.NO_CLOCKS);
        const what = { label: startOverLabel(tooth), tooth, step: null, soiled: null };
        this.#happen(entry, what, { begun: null, served: null });
        return undefined;
      }
      case 'hold':
        this.#clocks.set(tooth, ledger.hold(clocks, plan, at));
        return undefined;
      case 'release':
        this.#clocks.set(tooth, ledger.release(clocks, at));
        return undefined;
      default:
        return undefined;
    }
  }
}

/** A record read as what happened: which entries are activities, what each dwell took, what was said. */
export function traceOf(header: Header, entries: readonly Entry[]): Trace {
  const reader = new Reader(header);
  for (const entry of entries) reader.read(entry);
  return tracedBy(reader);
}

function tracedBy(reader: Reader): Trace {
  const { activities, served, skipped, forced, claimed, hits, lots, findings, closed } = reader;
  return { activities, served, skipped, forced, claimed, hits, lots, findings, closed };
}

/** The dwells that run after these entries, by tooth; a test holds them equal to the machine's. */
export function runningAfter(
  header: Header,
  entries: readonly Entry[],
): ReadonlyMap<string, Clocks['dwells']> {
  const reader = new Reader(header);
  for (const entry of entries) reader.read(entry);
  return new Map(header.plan.units.map(({ tooth }) => [tooth, reader.clocksOf(tooth).dwells]));
}
