/* Linear algebra for `calc/linalg.py` in a browser: a thin layer over ml-matrix.
 * Matrices are arrays of rows.  `calc/linalg.py` has checked shape, symmetry and finiteness.
 */
import { CholeskyDecomposition, EigenvalueDecomposition, LuDecomposition, Matrix } from "ml-matrix";

const symmetric = { assumeSymmetric: true };

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
};
