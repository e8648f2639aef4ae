/** A move of the net alone that leads to a place. */
export interface Lead {
  readonly from: number;
  readonly cost: 0 | 1;
}

/** For each place, what leads there. */
export type Leads = readonly (readonly Lead[])[];

/**
 * Lets what is cheap to reach make its neighbours cheap: shortest ways with costs of 0 and 1, nearest
 * places first (Dial R. Commun ACM 1969;12:632-633, from memory). Works on one row in place; what is
 * `far` or more is not reached yet.
 */
export function relax(row: Float64Array | Uint32Array, leads: Leads, far: number): void {
  const buckets: number[][] = [];
  for (let place = 0; place < row.length; place += 1) {
    const value = row[place] ?? far;
    if (value < far) (buckets[value] ??= []).push(place);
  }
  for (let value = 0; value < buckets.length; value += 1) {
    const bucket = buckets[value];
    if (bucket === undefined) continue;
    for (let place = bucket.pop(); place !== undefined; place = bucket.pop()) {
      if (row[place] !== value) continue;
      for (const { from, cost } of leads[place] ?? []) {
        const through = value + cost;
        if (through >= (row[from] ?? 0)) continue;
        row[from] = through;
        (buckets[through] ??= []).push(from);
      }
    }
  }
}
