/** Nodes that multiply matrices in whole numbers from 0 to 255. */
import type { FreshNode } from '../onnx/nodes.ts';
import { FLOAT, UINT8 } from '../onnx/parts.ts';
import type { FreshTensor } from '../onnx/tensors.ts';
import { floats, steps } from '../onnx/values.ts';

/** The whole number that stands for none, and the most on either side of it. */
export const [NONE, MOST] = [128, 127];

const own = (what: string): string => `in_steps.${what}`;
/** What a graph with {@link inSteps} in it must hold. */
export const STEP_TENSORS: ReadonlyMap<string, FreshTensor> = new Map([
  [own('none'), steps([NONE], [])],
  [own('middle'), floats([NONE], [])],
  [own('share'), floats([1 / MOST], [])],
  // A row of zeroes has steps too.
  [own('least'), floats([1e-9], [])],
]);

/** A matrix of whole numbers by the names of its tensors. */
export interface Whole {
  readonly values: string;
  /** Which of them stands for none. */
  readonly none: string;
  /** What a step is worth: one for all, or one for each column or row. */
  readonly step: string;
}

/**
 * Makes whole numbers of rows of floats, each row in steps of its own: one that is loud takes nothing
 * from one that is not. `largest` are the sizes of the largest of what is in each row, or several such
 * tensors of which the largest counts. What comes out is `to`, and called as {@link stepsOf} says.
 */
export const inSteps = (
  rows: string,
  largest: readonly string[],
  to: string,
): readonly FreshNode[] => [
  { op: 'Max', from: [...largest, own('least')], to: [`${to}.most`] },
  { op: 'Mul', from: [`${to}.most`, own('share')], to: [`${to}.step`] },
  { op: 'Div', from: [rows, `${to}.step`], to: [`${to}.divided`] },
  { op: 'Add', from: [`${to}.divided`, own('middle')], to: [`${to}.above`] },
  { op: 'Round', from: [`${to}.above`], to: [`${to}.rounded`] },
  { op: 'Cast', from: [`${to}.rounded`], to: [to], attributes: { to: UINT8 } },
];

/** What {@link inSteps} makes. */
export const stepsOf = (to: string): Whole => ({
  values: to,
  none: own('none'),
  step: `${to}.step`,
});

/** Multiplies one by the other; floats come out, `to`. */
export const multiplied = (one: Whole, other: Whole, to: string): readonly FreshNode[] => [
  {
    op: 'MatMulInteger',
    from: [one.values, other.values, one.none, other.none],
    to: [`${to}.whole`],
  },
  { op: 'Cast', from: [`${to}.whole`], to: [`${to}.float`], attributes: { to: FLOAT } },
  // In this order the runtime sees one operation in all four.
  { op: 'Mul', from: [one.step, other.step], to: [`${to}.worth`] },
  { op: 'Mul', from: [`${to}.float`, `${to}.worth`], to: [to] },
];
