/* Fourier transforms for `calc/linalg.py` in a browser: a thin layer over fft.js, which transforms
 * lengths that are powers of two, for records of any length and for averages over blocks.
 * Buffers come from Python as they lie in its memory: nothing is copied sample by sample.
 */
import FFT from "fft.js";

const MOST_KEPT = 1 << 17; // a longer plan is made anew each time, to give its memory back
const kept = new Map();

/** The plan for a length, made once for lengths that come again. */
function planned(kind, length, make) {
  const key = `${kind} ${length}`;
  const found = kept.get(key) ?? make(length);
  if (kept.size > 7) kept.clear();
  if (length <= MOST_KEPT) kept.set(key, found);
  return found;
}

const isPowerOfTwo = (number) => (number & (number - 1)) === 0;

/** A function that transforms `count` complex numbers, real and imaginary parts in turn. */
function complexPlan(count) {
  if (count === 1) return (input) => Float64Array.from(input);
  if (isPowerOfTwo(count)) {
    const fft = new FFT(count);
    const output = new Float64Array(2 * count);
    return (input) => {
      fft.transform(output, input);
      return output;
    };
  }
  return chirpPlan(count);
}

/** The same for a length that is no power of two, by the chirp transform: the products of sample
 *  and line numbers in the exponent become squares, jk = (j² + k² - (k - j)²) / 2, and the sum a
 *  convolution, which longer transforms of a power of two carry out. */
function chirpPlan(count) {
  let size = 2;
  while (size < 2 * count - 1) size *= 2;
  const fft = new FFT(size);
  const chirp = new Float64Array(2 * count);
  const input = new Float64Array(2 * size);
  const output = new Float64Array(2 * size);
  for (let j = 0; j < count; j++) {
    const angle = (Math.PI * ((j * j) % (2 * count))) / count;
    chirp[2 * j] = Math.cos(angle);
    chirp[2 * j + 1] = -Math.sin(angle);
    for (const place of new Set([j, (size - j) % size])) {
      input[2 * place] = chirp[2 * j];
      input[2 * place + 1] = -chirp[2 * j + 1];
    }
  }
  const filter = new Float64Array(2 * size);
  fft.transform(filter, input);
  return (samples) => {
    input.fill(0);
    multiply(input, samples, chirp, count);
    fft.transform(output, input);
    multiply(output, output, filter, size);
    fft.inverseTransform(input, output);
    multiply(output, input, chirp, count);
    return output;
  };
}

/** Products of the first complex numbers of two lists. */
function multiply(target, left, right, count) {
  for (let i = 0; i < 2 * count; i += 2) {
    const real = left[i] * right[i] - left[i + 1] * right[i + 1];
    target[i + 1] = left[i] * right[i + 1] + left[i + 1] * right[i];
    target[i] = real;
  }
}

/** A function that gives the lines of `count` real numbers from 0 to half the sample rate, real and
 *  imaginary parts in turn; what it returns is overwritten by its next call.  The first line and,
 *  of an even count, the last have no imaginary part, not even a rounded one. */
function realPlan(count) {
  const transform = unroundedPlan(count);
  return (samples) => {
    const lines = transform(samples);
    lines[1] = 0;
    if (count % 2 === 0) lines[count + 1] = 0;
    return lines;
  };
}

function unroundedPlan(count) {
  if (count > 1 && isPowerOfTwo(count)) {
    const fft = new FFT(count);
    const output = new Float64Array(2 * count);
    return (samples) => {
      fft.realTransform(output, samples);
      return output;
    };
  }
  if (count % 2) {
    const transform = complexPlan(count);
    const input = new Float64Array(2 * count);
    return (samples) => {
      for (let j = 0; j < count; j++) input[2 * j] = samples[j];
      return transform(input);
    };
  }
  return halvedPlan(count / 2);
}

/** The same for twice `half` numbers, by one transform of half the length: numbers of even and odd
 *  place are its real and imaginary parts, and their lines are put together again. */
function halvedPlan(half) {
  const transform = complexPlan(half);
  const output = new Float64Array(2 * half + 2);
  const turns = new Float64Array(2 * half + 2);
  for (let k = 0; k <= half; k++) {
    turns[2 * k] = Math.cos((Math.PI * k) / half);
    turns[2 * k + 1] = Math.sin((Math.PI * k) / half);
  }
  return (samples) => {
    const mixed = transform(samples);
    for (let k = 0; k <= half; k++) {
      const one = 2 * (k % half);
      const other = 2 * ((half - k) % half);
      const evenReal = (mixed[one] + mixed[other]) / 2;
      const evenImaginary = (mixed[one + 1] - mixed[other + 1]) / 2;
      const oddReal = (mixed[one + 1] + mixed[other + 1]) / 2;
      const oddImaginary = (mixed[other] - mixed[one]) / 2;
      const cosine = turns[2 * k];
      const sine = turns[2 * k + 1];
      output[2 * k] = evenReal + cosine * oddReal + sine * oddImaginary;
      output[2 * k + 1] = evenImaginary + cosine * oddImaginary - sine * oddReal;
    }
    return output;
  };
}

/** Run `use` with the numbers in some buffers of Python, in place. */
export function within(buffers, use) {
  const views = buffers.map((buffer) => buffer.getBuffer("f64"));
  try {
    return use(...views.map((view) => view.data));
  } finally {
    for (const view of views) view.release();
  }
}

export const fourier = {
  /** Fill `real` and `imaginary` with the lines of `samples` from 0 to half the sample rate. */
  spectrum(...buffers) {
    within(buffers, (samples, real, imaginary) => {
      const lines = planned("real", samples.length, realPlan)(samples);
      for (let k = 0; k < real.length; k++) {
        real[k] = lines[2 * k];
        imaginary[k] = lines[2 * k + 1];
      }
    });
  },

  /** Fill `magnitudes` and `phases` with the lines of `samples` times `weights`. */
  lines(...buffers) {
    within(buffers, (samples, weights, magnitudes, phases) => {
      const weighted = samples.map((sample, place) => sample * weights[place]);
      const lines = planned("real", samples.length, realPlan)(weighted);
      for (let k = 0; k < magnitudes.length; k++) {
        const [real, imaginary] = [lines[2 * k], lines[2 * k + 1]];
        magnitudes[k] = Math.sqrt(real * real + imaginary * imaginary);
        phases[k] = Math.atan2(imaginary, real);
      }
    });
  },

  /** Fill `powers` with the mean of the squared lines of all whole blocks of `samples`, `step`
   *  samples apart, each times `weights`. */
  meanPowers(step, ...buffers) {
    within(buffers, (samples, weights, powers) => {
      const length = weights.length;
      const plan = planned("real", length, realPlan);
      const block = new Float64Array(length);
      const count = Math.floor((samples.length - length) / step) + 1;
      powers.fill(0);
      for (let start = 0; start + length <= samples.length; start += step) {
        for (let j = 0; j < length; j++) block[j] = samples[start + j] * weights[j];
        const lines = plan(block);
        for (let k = 0; k < powers.length; k++) {
          powers[k] += (lines[2 * k] ** 2 + lines[2 * k + 1] ** 2) / count;
        }
      }
    });
  },

  /** Fill `real` and `imaginary` with the mean products of the lines of `others`, each times the
   *  conjugate of that of `samples`, over all whole blocks, and `powers` and `theirs` with the mean
   *  squared lines of both. */
  meanCrossPowers(step, ...buffers) {
    within(buffers, (samples, others, weights, real, imaginary, powers, theirs) => {
      const length = weights.length;
      const plan = planned("real", length, realPlan);
      const block = new Float64Array(length);
      const count = Math.floor((samples.length - length) / step) + 1;
      const linesAt = (record, start) => {
        for (let j = 0; j < length; j++) block[j] = record[start + j] * weights[j];
        return plan(block);
      };
      for (const sums of [real, imaginary, powers, theirs]) sums.fill(0);
      for (let start = 0; start + length <= samples.length; start += step) {
        const one = Float64Array.from(linesAt(samples, start));
        const other = linesAt(others, start);
        for (let k = 0; k < powers.length; k++) {
          const [a, b, c, d] = [one[2 * k], one[2 * k + 1], other[2 * k], other[2 * k + 1]];
          real[k] += (a * c + b * d) / count;
          imaginary[k] += (a * d - b * c) / count;
          powers[k] += (a * a + b * b) / count;
          theirs[k] += (c * c + d * d) / count;
        }
      }
    });
  },

  /** Fill `weights` with a sum of cosines over one period, the first coefficient the mean. */
  cosineSeries(...buffers) {
    within(buffers, (coefficients, weights) => {
      const count = weights.length;
      for (let n = 0; n <= count / 2; n++) {
        let sum = 0;
        for (let k = 0; k < coefficients.length; k++) {
          sum += coefficients[k] * Math.cos((2 * Math.PI * ((k * n) % count)) / count);
        }
        weights[n] = sum;
        if (n) weights[count - n] = sum;
      }
    });
  },
};
