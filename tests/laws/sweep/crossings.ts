import { gate, RULES, type UnitContext, type UnitEvent } from '../../../machines/seating/index.ts';

/** What belongs to which part; the rest of a context is the same for all of them. */
const OWNERS: Readonly<Record<string, string>> = {
  intaglio: 'inside',
  contaminants: 'inside',
  texture: 'inside',
  intaglioAgent: 'inside',
  prep: 'tooth side',
  prepAgent: 'tooth side',
  peroxide: 'tooth side',
  field: 'tooth side',
  cement: 'cement',
  mixedAt: 'cement',
};

/** A value that tells which of its properties are read. */
function watched<T extends object>(of: T, read: (name: string) => void): T {
  return new Proxy(of, {
    get(target, name, receiver) {
      if (typeof name === 'string') read(name);
      return Reflect.get(target, name, receiver);
    },
  });
}

/** Rules of the gates in which the parts meet that read more than one part here: there should be none. */
export function crossings(context: UnitContext, events: readonly UnitEvent[]): readonly string[] {
  return events.flatMap((event) =>
    gate(event.type).flatMap((name) => {
      const parts = new Set<string>();
      const note = (property: string): void => {
        const owner = OWNERS[property];
        if (owner !== undefined) parts.add(owner);
      };
      const now = watched(context.now, note);
      RULES[name]({ context: watched({ ...context, now }, note), event });
      return parts.size > 1 ? [`${event.type} ${name}: ${[...parts].join(', ')}`] : [];
    }),
  );
}
