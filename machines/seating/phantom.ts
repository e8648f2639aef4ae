/** A value for the compiler only: xstate reads the type of `types` and never its contents. */
// oxlint-disable-next-line typescript/no-unnecessary-type-parameters -- the caller names the type, as xstate asks
export function phantom<T>(): T {
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion -- never read at run time
  return {} as T;
}
