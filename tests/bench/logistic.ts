/** Logistic regression, for weights that ship: small, exact, and the same on every machine. */

/** Natural weights of `features` (with a constant of 1 put behind them) for `isOne`, by Newton's steps. */
export function fitted(
  features: readonly (readonly number[])[],
  isOne: readonly boolean[],
  ridge = 0.02,
): readonly number[] {
  const rows = features.map((row) => [...row, 1]);
  const size = rows[0]?.length ?? 0;
  let weights: number[] = Array.from({ length: size }, () => 0);
  for (let turn = 0; turn < 40; turn++) {
    const gradient = weights.map((weight, at) => (at === size - 1 ? 0 : -ridge * weight));
    const curve = weights.map((_, at) =>
      weights.map((__, beside) => (at === beside ? ridge + 1e-9 : 0)),
    );
    rows.forEach((row, index) => {
      const chance = 1 / (1 + Math.exp(-dot(row, weights)));
      const missed = (isOne[index] === true ? 1 : 0) - chance;
      const spread = chance * (1 - chance);
      row.forEach((value, at) => {
        gradient[at] = (gradient[at] ?? 0) + missed * value;
        const line = curve[at] ?? [];
        row.forEach((other, beside) => {
          line[beside] = (line[beside] ?? 0) + spread * value * other;
        });
      });
    });
    const step = solved(curve, gradient);
    weights = weights.map((weight, at) => weight + (step[at] ?? 0));
    if (Math.max(...step.map(Math.abs)) < 1e-8) break;
  }
  return weights;
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, at) => sum + value * (b[at] ?? 0), 0);

/** Solves a small system of equations by elimination. */
function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, at) => [...row, right[at] ?? 0]);
  const size = rows.length;
  for (let at = 0; at < size; at++) {
    const best = rows.findIndex(
      (row, index) =>
        index >= at &&
        Math.abs(row[at] ?? 0) === Math.max(...rows.slice(at).map((one) => Math.abs(one[at] ?? 0))),
    );
    [rows[at], rows[best]] = [rows[best] ?? [], rows[at] ?? []];
    const pivot = rows[at] ?? [];
    rows.forEach((row, index) => {
      if (index === at) return;
      const share = (row[at] ?? 0) / (pivot[at] ?? 1);
      pivot.forEach((value, beside) => {
        row[beside] = (row[beside] ?? 0) - share * value;
      });
    });
  }
  return rows.map((row, at) => (row[size] ?? 0) / (row[at] ?? 1));
}
