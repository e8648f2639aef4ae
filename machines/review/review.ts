import type { CaseFile, Entry, Header, Plan, Role } from '../contract/index.ts';
import { ROLES } from '../contract/index.ts';
import { alignTrace, namesOf, unitName } from './align/align.ts';
import { project } from './align/heuristic.ts';
import type { Projected } from './align/heuristic.ts';
import type { GuardHit, ReviewedRecord, ReviewedUnit } from './deviation.ts';
import { grade } from './grade/grade.ts';
import { planNet } from './net/plan-net.ts';
import type { Trace } from './trace/activity.ts';
import { traceOf } from './trace/trace.ts';

/** A record whose lines have been verified. */
export interface ReadRecord {
  readonly header: Header;
  readonly entries: readonly Entry[];
  /** Its file was cut off: what came after the last entry is not known. */
  readonly cut?: boolean;
}

/** A case with its units by their place in the plan: mouths that differ in nothing else share a net. */
function nameless({ case: caseFile, plan }: Header): {
  readonly caseFile: CaseFile;
  readonly plan: Plan;
} {
  const names = new Map(plan.units.map(({ tooth }, i) => [tooth, unitName(i)]));
  const renamed = <T extends { readonly tooth: string }>(unit: T): T => ({
    ...unit,
    tooth: names.get(unit.tooth) ?? unit.tooth,
  });
  return {
    caseFile: { ...caseFile, units: caseFile.units.map(renamed) },
    plan: { ...plan, units: plan.units.map(renamed) },
  };
}

/** All that a plan's net is made of. */
const shapeOf = ({ case: caseFile, plan }: Header): string =>
  JSON.stringify([
    caseFile.team,
    plan.units.map(({ tooth, steps, spare }) => {
      const facts = caseFile.units.find((unit) => unit.tooth === tooth);
      const cement = caseFile.shelf.cements.find(({ label }) => label === facts?.cement);
      return [
        steps.map(({ id, scope }) => (scope === 'case' ? `${id}*` : id)),
        spare.map(({ id }) => id),
        facts?.material,
        facts?.intaglioFromLab,
        facts?.tryInPaste,
        facts?.countsCleanReason !== undefined,
        cement?.class,
        cement?.carriesPhosphate,
      ];
    }),
  ]);

/** Nets kept for plans of the same shape. */
const KEPT = 256;

/** Reviews one record after another; what their plans share is worked out once. */
export class Reviewer {
  readonly #nets = new Map<string, Projected>();

  /** The net of a record's plan, ready to be aligned with; its units go by their place. @throws NotASeating */
  netOf(header: Header): Projected {
    const shape = shapeOf(header);
    const known = this.#nets.get(shape);
    if (known !== undefined) {
      // The one that was not asked for longest goes first.
      this.#nets.delete(shape);
      this.#nets.set(shape, known);
      return known;
    }
    const { caseFile, plan } = nameless(header);
    const made = project(planNet(caseFile, plan));
    const [oldest] = this.#nets.keys();
    if (this.#nets.size >= KEPT && oldest !== undefined) this.#nets.delete(oldest);
    this.#nets.set(shape, made);
    return made;
  }

  /**
   * What a verified record shows: read, aligned with its plan, graded. `record` is what it is called.
   * Of one that was cut off only what it still has is judged: no step is missing that could have come.
   * @throws NotASeating when its plan is none.
   * @throws TooHard when it is so far from its plan that no alignment is found.
   */
  review(record: string, { header, entries, cut = false }: ReadRecord): ReviewedRecord {
    const trace = traceOf(header, entries);
    const projected = this.netOf(header);
    const names = namesOf(header.plan.units.map(({ tooth }) => tooth));
    const alignment = alignTrace(projected, trace.activities, names, cut ? 'anywhere' : 'final');
    const deviations = grade(header, trace, alignment, projected.net);
    return {
      record,
      reference: header.case.reference,
      invented: header.invented,
      opened: header.opened,
      closed: trace.closed,
      entries: entries.length,
      ...(cut ? { cutAfter: entries.length } : {}),
      units: header.plan.units.map(({ tooth }) =>
        unitOf(header, entries, trace, deviations, tooth),
      ),
      lots: lotsOf(header, trace),
      guards: guardsOf(trace),
      alignment,
      deviations,
    };
  }
}

function unitOf(
  { case: caseFile, plan }: Header,
  entries: readonly Entry[],
  trace: Trace,
  deviations: ReviewedRecord['deviations'],
  tooth: string,
): ReviewedUnit {
  const facts = caseFile.units.find((unit) => unit.tooth === tooth);
  const planned = plan.units.find((unit) => unit.tooth === tooth);
  if (facts === undefined || planned === undefined) throw new Error(`No unit on tooth ${tooth}`);
  const said = new Set<Role>(
    entries.flatMap((entry) => (entry.tooth === tooth ? [entry.stamp.who] : [])),
  );
  const mine = trace.activities.filter((one) => one.tooth === tooth);
  const { label, class: kind } = planned.cement;
  return {
    tooth,
    material: facts.material,
    kind: facts.kind,
    substrate: facts.substrate,
    cement: { label, class: kind },
    roles: ROLES.filter((role) => said.has(role)),
    formHolds: planned.retention.holds,
    seated: mine.findLast(({ step }) => step === 'seat')?.wall ?? null,
    dwells: trace.served
      .filter((one) => one.tooth === tooth)
      .map(({ step, servedS, window, begun, entry }) => ({
        step,
        servedS,
        minS: window.minS,
        targetS: window.targetS,
        maxS: window.maxS,
        entries: [...new Set([begun, entry])],
      })),
    findings: trace.findings
      .filter((one) => one.tooth === tooth)
      .map(({ finding, entry }) => ({ finding, entry })),
    deviations: deviations.filter((one) => one.tooth === tooth),
  };
}

/** Lots said in the case, and those of what stands on the shelf. */
function lotsOf({ case: caseFile }: Header, { lots }: Trace): ReviewedRecord['lots'] {
  const { cleaner, hydrofluoricAcid, phosphoricAcid, silane, phosphatePrimer, adhesive, cements } =
    caseFile.shelf;
  const used = cements.filter(({ label }) => caseFile.units.some(({ cement }) => cement === label));
  const shelf = [
    cleaner,
    hydrofluoricAcid,
    phosphoricAcid,
    silane,
    phosphatePrimer,
    adhesive,
    ...used,
  ];
  return [
    ...lots.map(({ item, lot }) => ({ item, lot })),
    ...shelf.flatMap((item) =>
      item?.lot === undefined ? [] : [{ item: item.label, lot: item.lot }],
    ),
  ];
}

function guardsOf({ hits, forced }: Trace): readonly GuardHit[] {
  return hits.map(({ refusal, tooth, step, entry }) => ({
    refusal,
    tooth,
    step,
    entry,
    forced: forced.some(({ entries }) => entries.includes(entry)),
  }));
}
