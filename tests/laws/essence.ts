import type { CaseState } from '../../machines/conduct/index.ts';

/** A case's state as plain data: what a reload would have to give again, the machines' own code left out. */
export function essence(state: CaseState): unknown {
  const units = (of: CaseState['units']) =>
    Object.entries(of).map(([tooth, { value, context }]) => ({ tooth, value, context }));
  const { desk, undo, ...rest } = state;
  const plain = {
    ...rest,
    units: units(state.units),
    desk: { value: desk.value, context: desk.context },
    undo: undo.map((point) => ({ ...point, units: units(point.units) })),
  };
  return JSON.parse(JSON.stringify(plain));
}
