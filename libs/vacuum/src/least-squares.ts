export interface LeastSquares {
  /** One for each column of the rows, 0 for a column that was left out. */
  readonly values: readonly number[];
  /** Variance of each value for a unit variance of the readings. */
  readonly spreads: readonly number[];
  /** Weighted sum of the squares left over. */
  readonly squares: number;
}

/**
 * Weighted linear least squares on some columns of rows whose last entry is the reading, by normal equations and
 * elimination without exchange: for a few columns of like size.
 *
 * @param rows columns and then the reading [-]
 * @param weights one for each row [-]
 * @param columns which columns take part [-]
 * @returns values, their variances, and the squares left over [-]
 * @throws nothing; columns that can't be told apart give a value that is not finite
 * @validity columns not nearly equal
 * @source normal equations, any text
 * @example leastSquares([[1, 0, 1], [1, 1, 3], [1, 2, 5]], [1, 1, 1], [0, 1]).values[1] // => 2
 */
export function leastSquares(
  rows: readonly (readonly number[])[],
  weights: readonly number[],
  columns: readonly number[],
): LeastSquares {
  const reading = rows[0]!.length - 1;
  const size = columns.length;
  const matrix = columns.map((a, at) => {
    const normal = [...columns, reading].map((b) => weightedProduct(rows, weights, a, b));
    return [...normal, ...columns.map((_, other) => (at === other ? 1 : 0))];
  });
  for (let pivot = 0; pivot < size; pivot += 1) {
    const own = matrix[pivot]!;
    const scale = own[pivot]!;
    for (let at = 0; at < own.length; at += 1) own[at]! /= scale;
    for (const row of matrix) {
      if (row === own) continue;
      const factor = row[pivot]!;
      for (let at = 0; at < row.length; at += 1) row[at]! -= factor * own[at]!;
    }
  }
  const values = Array.from({ length: reading }, () => 0);
  const spreads = Array.from({ length: reading }, () => 0);
  for (const [at, column] of columns.entries()) {
    values[column] = matrix[at]![size]!;
    spreads[column] = matrix[at]![size + 1 + at]!;
  }
  return { values, spreads, squares: squaresLeft(rows, weights, values) };
}

function weightedProduct(
  rows: readonly (readonly number[])[],
  weights: readonly number[],
  a: number,
  b: number,
): number {
  let sum = 0;
  for (let at = 0; at < rows.length; at += 1) sum += weights[at]! * rows[at]![a]! * rows[at]![b]!;
  return sum;
}

function squaresLeft(
  rows: readonly (readonly number[])[],
  weights: readonly number[],
  values: readonly number[],
): number {
  let sum = 0;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at]!;
    let left = row[values.length]!;
    for (let column = 0; column < values.length; column += 1) left -= values[column]! * row[column]!;
    sum += weights[at]! * left * left;
  }
  return sum;
}
