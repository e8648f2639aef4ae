export type Matrix = readonly (readonly number[])[];

/** Relative size below which a pivot counts as nothing. */
const NOTHING = 1e-12;

/**
 * Solves `matrix` x = `right` by elimination with partial pivoting; `matrix` is square. Null when
 * it is singular. Small systems only: the work goes with the cube of the size.
 */
export function solve(matrix: Matrix, right: readonly number[]): number[] | null {
  const size = right.length;
  const rows = matrix.map((row, i) => [...row, right[i] ?? 0]);
  const scale = Math.max(...rows.flatMap((row) => row.slice(0, size).map(Math.abs)));
  for (let column = 0; column < size; column += 1) {
    const below = rows.slice(column).map((row) => Math.abs(row[column] ?? 0));
    const best = Math.max(...below);
    if (!(best > scale * NOTHING)) return null;
    const from = column + below.indexOf(best);
    const pivot = rows[from] ?? [];
    rows[from] = rows[column] ?? [];
    rows[column] = pivot;
    for (const row of rows.slice(column + 1)) {
      const factor = (row[column] ?? 0) / (pivot[column] ?? 1);
      for (let k = column; k <= size; k += 1) row[k] = (row[k] ?? 0) - factor * (pivot[k] ?? 0);
    }
  }
  const x = Array.from<number>({ length: size }).fill(0);
  for (let i = size - 1; i >= 0; i -= 1) {
    const row = rows[i] ?? [];
    const known = x.reduce((sum, value, k) => (k > i ? sum + value * (row[k] ?? 0) : sum), 0);
    x[i] = ((row[size] ?? 0) - known) / (row[i] ?? 1);
  }
  return x;
}

/** The inverse of a small square matrix; null when it is singular. */
export function inverse(matrix: Matrix): number[][] | null {
  const columns: number[][] = [];
  for (let i = 0; i < matrix.length; i += 1) {
    const unit = matrix.map((_, k) => (k === i ? 1 : 0));
    const column = solve(matrix, unit);
    if (column === null) return null;
    columns.push(column);
  }
  return matrix.map((_, row) => columns.map((column) => column[row] ?? 0));
}
