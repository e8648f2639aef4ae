/**
 * A cement time at another temperature, in the unit of `seconds`:
 * t(T) = t(ref) * q10 ^ ((ref - T) / 10). For planning only.
 */
export const atTemperature = (
  seconds: number,
  celsius: number,
  { q10, referenceC }: { readonly q10: number; readonly referenceC: number },
): number => seconds * q10 ** ((referenceC - celsius) / 10);
