import { SPELLS, WEIGHING } from '../../trade/index.ts';
import type { DebondEventId } from '../../trade/index.ts';
import { rateRegression } from '../survival/index.ts';
import type { Cell, Ratio } from '../survival/index.ts';
import { allEvents } from '../weigh/events.ts';
import type { Followed } from './follow-up.ts';

/** What an event of the seating does to the hazard, evened out for material, time in place and the other events. */
export interface EventHazard {
  readonly id: DebondEventId;
  readonly name: string;
  readonly restorations: number;
  readonly debonds: number;
  /** Null when it can't be told: no debond among them, or nothing to compare. */
  readonly ratio: Ratio | null;
  readonly few: boolean;
}

const EVENTS = allEvents().map(([id, { name }]) => ({ id, name }));

interface Sum {
  events: number;
  exposure: number;
}

/** Ends of the spells in days; hazards may differ from one to the next. */
const ENDS = [
  WEIGHING.month.value,
  WEIGHING.year.value,
  5 * WEIGHING.year.value,
  Infinity,
] as const;

/**
 * Follow-up summed over material, set of events and spell in place: it grows with the patterns
 * that occur and not with the restorations.
 */
export class HazardCells {
  readonly #cells = new Map<string, Sum>();
  readonly #events = new Map<DebondEventId, { restorations: number; debonds: number }>();

  add(material: string, seen: readonly DebondEventId[], { days, lost }: Followed): void {
    for (const id of seen) {
      const { restorations, debonds } = this.#events.get(id) ?? { restorations: 0, debonds: 0 };
      this.#events.set(id, {
        restorations: restorations + 1,
        debonds: debonds + (lost ? 1 : 0),
      });
    }
    const mask = EVENTS.map(({ id }) => (seen.includes(id) ? '1' : '0')).join('');
    let from = 0;
    for (const [spell, end] of ENDS.entries()) {
      const here = lost && days >= from && days < end;
      // A loss on the first day still was exposed for part of it.
      const exposure = Math.min(Math.max(days, lost ? 0.5 : 0), end) - from;
      if (exposure > 0) {
        const key = `${material}|${mask}|${spell}`;
        const sum = this.#cells.get(key) ?? { events: 0, exposure: 0 };
        sum.events += here ? 1 : 0;
        sum.exposure += exposure;
        this.#cells.set(key, sum);
      }
      from = end;
      if (days < end) break;
    }
  }

  /** Every event that occurred, by its hazard ratio where that can be told. */
  result(): readonly EventHazard[] {
    const ratios = this.#fit();
    return EVENTS.flatMap(({ id, name }): EventHazard[] => {
      const counted = this.#events.get(id);
      if (counted === undefined) return [];
      const ratio = ratios.find((one) => one.name === id) ?? null;
      return [{ id, name, ...counted, ratio, few: counted.debonds < WEIGHING.small.value }];
    });
  }

  /** The ratios of all events together; the rarest are left out until they can be fitted. */
  #fit(): readonly Ratio[] {
    const wanted = EVENTS.map(({ id }) => id)
      .filter((id) => (this.#events.get(id)?.debonds ?? 0) > 0)
      .toSorted(
        (one, other) =>
          (this.#events.get(other)?.debonds ?? 0) - (this.#events.get(one)?.debonds ?? 0),
      );
    for (let many = wanted.length; many > 0; many -= 1) {
      const kept = wanted.slice(0, many);
      const { names, cells } = this.#design(kept);
      const ratios = rateRegression(names, cells);
      if (ratios !== null) return ratios.filter(({ name }) => kept.some((id) => id === name));
    }
    return [];
  }

  /** Covariates: one, materials and spells with losses in them against the commonest, and the events. */
  #design(kept: readonly DebondEventId[]): { names: string[]; cells: Cell[] } {
    const rows = [...this.#cells].map(([key, sum]) => {
      const [material = '', mask = '', spell = ''] = key.split('|');
      return { material, mask, spell, ...sum };
    });
    const levels = (of: 'material' | 'spell'): string[] => {
      const losses = new Map<string, number>();
      for (const row of rows) losses.set(row[of], (losses.get(row[of]) ?? 0) + row.events);
      return [...losses]
        .filter(([, many]) => many > 0)
        .toSorted(([one, a], [other, b]) => b - a || one.localeCompare(other, 'en'))
        .map(([level]) => level)
        .slice(1);
    };
    const materials = levels('material');
    const spells = levels('spell');
    const names = [
      'one',
      ...materials.map((one) => `material ${one}`),
      ...spells.map((one) => SPELLS[Number(one)] ?? one),
      ...kept,
    ];
    const places = kept.map((id) => EVENTS.findIndex((event) => event.id === id));
    const cells = rows.map(({ material, mask, spell, events, exposure }) => ({
      values: [
        1,
        ...materials.map((one) => (one === material ? 1 : 0)),
        ...spells.map((one) => (one === spell ? 1 : 0)),
        ...places.map((at) => (mask[at] === '1' ? 1 : 0)),
      ],
      events,
      exposure,
    }));
    return { names, cells };
  }
}
