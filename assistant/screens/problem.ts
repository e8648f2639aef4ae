/** One thing wrong with what was filled in. */
export interface FieldProblem {
  /** Where, such as `units[0].tooth`; empty for the whole of it. */
  readonly field: string;
  /** What is wrong and what is allowed there. */
  readonly message: string;
}
