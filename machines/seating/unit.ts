import { cement } from './region-cement.ts';
import { field } from './region-field.ts';
import { intaglio } from './region-intaglio.ts';
import { prep } from './region-prep.ts';
import { where } from './region-where.ts';
import { dwells, pointer } from './region-work.ts';
import { fresh, unitSetup } from './setup.ts';

/**
 * One restoration from the bench to the mouth for good. Regions run side by side: the surfaces know
 * nothing of each other, and meet only in the guards. Time and reasons arrive in the events.
 */
export const unitMachine = unitSetup.createMachine({
  id: 'unit',
  type: 'parallel',
  context: ({ input }) => fresh(input),
  states: { where, intaglio, prep, field, cement, dwells, pointer },
});
