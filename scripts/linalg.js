/* Linear algebra for `calc/linalg.py` in a browser: a thin layer over ml-matrix, and what it has
 * not: eigenvalues without eigenvectors, and steps of periodic systems; with the Fourier transforms
 * of fourier.js and the reading of records of reading.js.
 * Matrices are arrays of rows.  `calc/linalg.py` has checked shape, symmetry and finiteness.
 */
import { CholeskyDecomposition, EigenvalueDecomposition, LuDecomposition, Matrix } from "ml-matrix";
import { fourier } from "./fourier.js";
import { reading } from "./reading.js";

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

/** Scale a flat square matrix by powers of two so that its rows and columns are of like size. */
function balance(a, n) {
  for (let settled = false; !settled; ) {
    settled = true;
    for (let i = 0; i < n; i++) {
      let column = 0;
      let row = 0;
      for (let j = 0; j < n; j++) {
        if (j === i) continue;
        column += Math.abs(a[j * n + i]);
        row += Math.abs(a[i * n + j]);
      }
      if (!column || !row) continue;
      const before = column + row;
      let factor = 1;
      for (; column < row / 2; column *= 4) factor *= 2;
      for (; column > row * 2; column /= 4) factor /= 2;
      if ((column + row) / factor >= 0.95 * before) continue;
      settled = false;
      for (let j = 0; j < n; j++) a[i * n + j] /= factor;
      for (let j = 0; j < n; j++) a[j * n + i] *= factor;
    }
  }
}

/** Bring a flat square matrix to Hessenberg form by reflections; its eigenvalues stay. */
function reduce(a, n) {
  const v = new Float64Array(n);
  for (let k = 0; k < n - 2; k++) {
    let norm = 0;
    for (let i = k + 1; i < n; i++) norm = Math.hypot(norm, a[i * n + k]);
    if (!norm) continue;
    if (a[(k + 1) * n + k] > 0) norm = -norm;
    let length = 0;
    for (let i = k + 1; i < n; i++) {
      v[i] = a[i * n + k] - (i === k + 1 ? norm : 0);
      length += v[i] * v[i];
    }
    for (let j = k; j < n; j++) {
      let along = 0;
      for (let i = k + 1; i < n; i++) along += v[i] * a[i * n + j];
      along *= 2 / length;
      for (let i = k + 1; i < n; i++) a[i * n + j] -= along * v[i];
    }
    for (let i = 0; i < n; i++) {
      let along = 0;
      for (let j = k + 1; j < n; j++) along += a[i * n + j] * v[j];
      along *= 2 / length;
      for (let j = k + 1; j < n; j++) a[i * n + j] -= along * v[j];
    }
  }
}

/** Real parts and imaginary parts of the eigenvalues of a flat square matrix, which is used up.
 *  The QR algorithm with Francis's double shift: Golub and Van Loan (2013), section 7.5. */
function eigenvalues(a, n) {
  balance(a, n);
  reduce(a, n);
  const real = new Array(n).fill(NaN);
  const imaginary = new Array(n).fill(NaN);
  const size = a.reduce((sum, element) => sum + Math.abs(element), 0);
  let shift = 0;
  for (let last = n - 1, rounds = 0; last >= 0 && rounds < 300; ) {
    let first = last;
    for (; first > 0; first--) {
      const near = Math.abs(a[(first - 1) * (n + 1)]) + Math.abs(a[first * (n + 1)]);
      if (Math.abs(a[first * n + first - 1]) < Number.EPSILON * (near || size)) break;
    }
    let x = a[last * (n + 1)];
    if (first === last) {
      real[last] = x + shift;
      imaginary[last] = 0;
      last--;
      rounds = 0;
      continue;
    }
    let y = a[(last - 1) * (n + 1)];
    let w = a[last * n + last - 1] * a[(last - 1) * n + last];
    if (first === last - 1) {
      const half = (y - x) / 2;
      const square = half * half + w;
      const root = Math.sqrt(Math.abs(square));
      if (square >= 0) {
        const far = half >= 0 ? half + root : half - root;
        real[first] = x + far + shift;
        real[last] = far ? x - w / far + shift : real[first];
        imaginary[first] = imaginary[last] = 0;
      } else {
        real[first] = real[last] = x + half + shift;
        imaginary[first] = root;
        imaginary[last] = -root;
      }
      last -= 2;
      rounds = 0;
      continue;
    }
    rounds++;
    if (rounds % 10 === 0) {
      shift += x;
      for (let i = 0; i <= last; i++) a[i * (n + 1)] -= x;
      const off =
        Math.abs(a[last * n + last - 1]) + Math.abs(a[(last - 1) * n + last - 2]);
      x = y = 0.75 * off;
      w = -0.4375 * off * off;
    }
    sweep(a, n, first, last, x, y, w);
  }
  return [real, imaginary];
}

/** One double step of the QR algorithm on rows `first` to `last`: `x` and `y` are the shifts of
 *  the last two rows, `w` the product of the elements beside them. */
function sweep(a, n, first, last, x, y, w) {
  let start = last - 2;
  let p, q, r;
  for (; ; start--) {
    const at = start * (n + 1);
    const below = at + n + 1;
    const one = x - a[at];
    const other = y - a[at];
    p = (one * other - w) / a[at + n] + a[at + 1];
    q = a[below] - a[at] - one - other;
    r = a[below + n];
    const scale = Math.abs(p) + Math.abs(q) + Math.abs(r);
    p /= scale;
    q /= scale;
    r /= scale;
    if (start === first) break;
    const beside = Math.abs(a[at - n - 1]) + Math.abs(a[at]) + Math.abs(a[below]);
    const small = Math.abs(a[at - 1]) * (Math.abs(q) + Math.abs(r));
    if (small < Number.EPSILON * Math.abs(p) * beside) break;
  }
  for (let i = start + 2; i <= last; i++) {
    a[i * n + i - 2] = 0;
    if (i > start + 2) a[i * n + i - 3] = 0;
  }
  for (let k = start; k < last; k++) {
    const three = k < last - 1;
    let scale = 1;
    if (k > start) {
      p = a[k * n + k - 1];
      q = a[(k + 1) * n + k - 1];
      r = three ? a[(k + 2) * n + k - 1] : 0;
      scale = Math.abs(p) + Math.abs(q) + Math.abs(r);
      if (!scale) continue;
      p /= scale;
      q /= scale;
      r /= scale;
    }
    let length = Math.sqrt(p * p + q * q + r * r);
    if (!length) continue;
    if (p < 0) length = -length;
    if (k > start) a[k * n + k - 1] = -length * scale;
    else if (start > first) a[k * n + k - 1] *= -1;
    p += length;
    const u = p / length;
    const v = q / length;
    const t = r / length;
    q /= p;
    r /= p;
    for (let j = k; j <= last; j++) {
      const to = k * n + j;
      let along = a[to] + q * a[to + n];
      if (three) {
        along += r * a[to + 2 * n];
        a[to + 2 * n] -= along * t;
      }
      a[to] -= along * u;
      a[to + n] -= along * v;
    }
    for (let i = first; i <= Math.min(last, k + 3); i++) {
      const to = i * n + k;
      let along = u * a[to] + v * a[to + 1];
      if (three) {
        along += t * a[to + 2];
        a[to + 2] -= along * r;
      }
      a[to] -= along;
      a[to + 1] -= along * q;
    }
  }
}

/** The states at the end of a time from unit states at its start, as the columns of a flat matrix;
 *  undefined where the mass matrix is singular.  `parts` holds the coefficients flat. */
function moved(parts, [size, rate, start, end, steps], [points, once, twice]) {
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
  return whole;
}

globalThis.linalg = {
  ...fourier,
  ...reading,

  /** Real parts and imaginary parts of the eigenvalues of a real matrix. */
  eigenvalues(rows) {
    return eigenvalues(Float64Array.from(rows.flat()), rows.length);
  },

  /** The same of each sum of parts: all real parts, then all imaginary parts.  `flat` holds the
   *  parts, `shares` how much of each is in each sum, row by row. */
  eigenvaluesOfSums(flat, shares, size) {
    const parts = Float64Array.from(flat);
    const weights = Float64Array.from(shares);
    const squared = size * size;
    const count = parts.length / squared;
    const found = [[], []];
    for (let sum = 0; sum < weights.length; sum += count) {
      const matrix = new Float64Array(squared);
      for (let part = 0; part < count; part++) {
        const weight = weights[sum + part];
        for (let e = 0; e < squared; e++) matrix[e] += weight * parts[part * squared + e];
      }
      const [real, imaginary] = eigenvalues(matrix, size);
      found[0].push(...real);
      found[1].push(...imaginary);
    }
    return found;
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
  transition(flat, sizes, method) {
    const whole = moved(Float64Array.from(flat), sizes, method);
    const columns = 2 * sizes[0];
    return (
      whole &&
      Array.from({ length: columns }, (_, row) =>
        Array.from(whole.subarray(row * columns, (row + 1) * columns)),
      )
    );
  },

  /** The eigenvalues of the transition of each turn: rate, time and steps.  `flat` holds the
   *  coefficients for the zeroth, first and second power of the rate. */
  multipliers(flat, size, turns, method) {
    const length = flat.length / 3;
    const parts = new Float64Array(length);
    return turns.map(([rate, time, steps]) => {
      for (let e = 0; e < length; e++) {
        parts[e] = flat[e] + rate * (flat[e + length] + rate * flat[e + 2 * length]);
      }
      const whole = moved(parts, [size, rate, 0, time, steps], method);
      return whole?.every(Number.isFinite) ? eigenvalues(whole, 2 * size) : undefined;
    });
  },
};
