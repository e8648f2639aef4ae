/** A value for the compiler only: xstate reads the type of `types` and never its contents. */
export function phantom<T>(): T {
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- never read at run time; see above
  return {} as T;
}
