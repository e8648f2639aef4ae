import type { Material } from '../../contract/index.ts';
import { allEvents, concerns } from '../weigh/events.ts';
import type { DebondEventId } from '../../trade/index.ts';
import type { Frequencies } from '../weigh/tell-apart.ts';

/** How often each event of the seating happens, among the restorations that can have it. */
export class EventCounts {
  readonly #seen = new Map<DebondEventId, number>();
  readonly #materials = new Map<Material, number>();

  add(material: Material, seen: readonly DebondEventId[]): void {
    this.#materials.set(material, (this.#materials.get(material) ?? 0) + 1);
    for (const id of seen) this.#seen.set(id, (this.#seen.get(id) ?? 0) + 1);
  }

  result(): Frequencies {
    return Object.fromEntries(
      allEvents().flatMap(([id, event]) => {
        const of = [...this.#materials]
          .filter(([material]) => concerns(event, material))
          .reduce((sum, [, many]) => sum + many, 0);
        return of === 0 ? [] : [[id, { seen: this.#seen.get(id) ?? 0, of }] as const];
      }),
    );
  }
}
