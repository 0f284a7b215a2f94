/* Linear algebra for `calc/linalg.py` in a browser: a thin layer over ml-matrix.
 * Matrices are arrays of rows.  `calc/linalg.py` has checked shape, symmetry and finiteness.
 */
import { CholeskyDecomposition, EigenvalueDecomposition, LuDecomposition, Matrix } from "ml-matrix";

const symmetric = { assumeSymmetric: true };

/** Solve `rows` linear equations by elimination with the largest pivot; false if singular.
 *  `table` holds them flat, `width` numbers a row: the matrix, and its right sides, which become
 *  the solutions. */
function eliminate(table, rows, width) {
  for (let k = 0; k < rows; k++) {
    let best = k;
    for (let i = k + 1; i < rows; i++) {
      if (Math.abs(table[i * width + k]) > Math.abs(table[best * width + k])) best = i;
    }
    const pivot = table[best * width + k];
    if (!pivot) return false;
    if (best !== k) {
      const kept = table.slice(k * width, (k + 1) * width);
      table.copyWithin(k * width, best * width, (best + 1) * width);
      table.set(kept, best * width);
    }
    for (let i = k + 1; i < rows; i++) {
      const factor = table[i * width + k] / pivot;
      if (!factor) continue;
      for (let j = k + 1, to = i * width + j, of = k * width + j; j < width; j++, to++, of++) {
        table[to] -= factor * table[of];
      }
    }
  }
  for (let k = rows - 1; k >= 0; k--) {
    const pivot = table[k * width + k];
    for (let j = rows; j < width; j++) table[k * width + j] /= pivot;
    for (let i = 0; i < k; i++) {
      const factor = table[i * width + k];
      if (!factor) continue;
      for (let j = rows, to = i * width + j, of = k * width + j; j < width; j++, to++, of++) {
        table[to] -= factor * table[of];
      }
    }
  }
  return true;
}

globalThis.linalg = {
  /** Real parts and imaginary parts of the eigenvalues of a real matrix. */
  eigenvalues(rows) {
    const found = new EigenvalueDecomposition(new Matrix(rows));
    return [found.realEigenvalues, found.imaginaryEigenvalues];
  },

  /** Eigenvalues in ascending order, and eigenvectors as columns. */
  symmetricEigen(rows) {
    const found = new EigenvalueDecomposition(new Matrix(rows), symmetric);
    return [found.realEigenvalues, found.eigenvectorMatrix.to2DArray()];
  },

  /** The column x in `rows x = rightSide`, or undefined when `rows` is singular. */
  solve(rows, rightSide) {
    const factors = new LuDecomposition(new Matrix(rows));
    if (factors.isSingular()) return undefined;
    return factors.solve(Matrix.columnVector(rightSide)).to1DArray();
  },

  /** As symmetricEigen, for stiffness x = value mass x; undefined when mass is not
   *  positive definite. */
  generalizedSymmetricEigen(stiffness, mass) {
    const cholesky = new CholeskyDecomposition(new Matrix(mass));
    if (!cholesky.isPositiveDefinite()) return undefined;
    const factor = new LuDecomposition(cholesky.lowerTriangularMatrix);
    const half = factor.solve(new Matrix(stiffness));
    const reduced = factor.solve(half.transpose());
    const found = new EigenvalueDecomposition(reduced, symmetric);
    const upper = new LuDecomposition(cholesky.lowerTriangularMatrix.transpose());
    return [found.realEigenvalues, upper.solve(found.eigenvectorMatrix).to2DArray()];
  },

  /** The states at the end of a time from unit states at its start, as the columns of a matrix;
   *  undefined where the mass matrix is singular.  See `calc/linalg.py`. */
  transition(flat, [size, rate, start, end, steps], [points, once, twice]) {
    const parts = Float64Array.from(flat);
    const squared = size * size;
    const count = points.length;
    const rows = count * size;
    const columns = 2 * size;
    const width = rows + columns;
    const step = (end - start) / steps;
    const table = new Float64Array(rows * width);
    let whole = new Float64Array(columns * columns);
    let next = new Float64Array(columns * columns);
    for (let i = 0; i < columns; i++) whole[i * columns + i] = 1;
    let cosine, sine;
    const at = (place) =>
      parts[place] + parts[place + squared] * cosine + parts[place + 2 * squared] * sine;
    for (let number = 0; number < steps; number++) {
      for (let i = 0; i < count; i++) {
        const angle = rate * (start + step * (number + points[i]));
        cosine = Math.cos(angle);
        sine = Math.sin(angle);
        for (let e = 0; e < squared; e++) {
          const mass = at(e);
          const damping = at(e + 3 * squared);
          const stiffness = at(e + 6 * squared);
          const column = e % size;
          const row = (((e - column) / size) * count + i) * width;
          for (let j = 0; j < count; j++) {
            table[row + column * count + j] =
              step * once[i][j] * damping + step * step * twice[i][j] * stiffness;
          }
          table[row + column * count + i] += mass;
          table[row + rows + column] = -stiffness;
          table[row + rows + size + column] = -damping - step * points[i] * stiffness;
        }
      }
      if (!eliminate(table, rows, width)) return undefined;
      for (let k = 0; k < size; k++) {
        const place = k * columns;
        const speed = (size + k) * columns;
        for (let c = 0; c < columns; c++) {
          next[place + c] = whole[place + c] + step * whole[speed + c];
          next[speed + c] = whole[speed + c];
        }
        for (let c = 0; c < columns; c++) {
          let moved = 0;
          let gained = 0;
          for (let i = 0; i < count; i++) {
            const pull = table[(k * count + i) * width + rows + c];
            moved += step * step * twice[count - 1][i] * pull;
            gained += step * once[count - 1][i] * pull;
          }
          for (let d = 0; d < columns; d++) {
            next[place + d] += moved * whole[c * columns + d];
            next[speed + d] += gained * whole[c * columns + d];
          }
        }
      }
      [whole, next] = [next, whole];
    }
    return Array.from({ length: columns }, (_, row) =>
      Array.from(whole.subarray(row * columns, (row + 1) * columns)),
    );
  },
};
