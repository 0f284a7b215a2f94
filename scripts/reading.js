/* Records read between their samples, for `calc/linalg.py` in a browser: a sum of the samples about
 * a place, each times the sinc of its distance under a Blackman window.
 */
import { within } from "./fourier.js";

/** The record with as many samples before and after it as `reach`: reflected through its ends. */
function continued(samples, reach) {
  const last = samples.length - 1;
  const padded = new Float64Array(samples.length + 2 * reach);
  padded.set(samples, reach);
  for (let i = 1; i <= reach; i++) {
    padded[reach - i] = 2 * samples[0] - samples[i];
    padded[reach + last + i] = 2 * samples[last] - samples[last - i];
  }
  return padded;
}

/** Fill `readings` with what `samples` are at equal steps over pieces, each a cubic that gives the
 *  place. */
function read(reach, samples, cubics, readings) {
  const padded = continued(samples, reach);
  const last = samples.length - 1;
  const pieces = cubics.length / 4;
  const cosines = new Float64Array(2 * reach);
  const sines = new Float64Array(2 * reach);
  for (let i = 0; i < 2 * reach; i++) {
    cosines[i] = Math.cos((Math.PI * (i + 1 - reach)) / reach);
    sines[i] = Math.sin((Math.PI * (i + 1 - reach)) / reach);
  }
  for (let number = 0; number < readings.length; number++) {
    const along = (number * pieces) / readings.length;
    const piece = Math.min(Math.floor(along), pieces - 1);
    const into = along - piece;
    const at = 4 * piece;
    const place =
      cubics[at] + into * (cubics[at + 1] + into * (cubics[at + 2] + into * cubics[at + 3]));
    const inside = Math.min(Math.max(place, 0), last);
    const before = Math.min(Math.floor(inside), last - 1);
    const beside = Math.min(Math.max(inside - before, 1e-9), 1 - 1e-9);
    const cosine = Math.cos((Math.PI * beside) / reach);
    const sine = Math.sin((Math.PI * beside) / reach);
    let sign = reach % 2 ? 1 : -1;
    let total = 0;
    let weights = 0;
    for (let i = 0; i < 2 * reach; i++, sign = -sign) {
      const slow = cosine * cosines[i] + sine * sines[i];
      const weight =
        (sign * (0.34 + slow * (0.5 + 0.16 * slow))) / (beside - (i + 1 - reach));
      weights += weight;
      total += weight * padded[before + i + 1];
    }
    readings[number] = total / weights;
  }
}

export const reading = {
  /** Fill `readings` with a record read between its samples, from `reach` of them on either side;
   *  four numbers a piece in `cubics`.  See `calc/linalg.py`. */
  resampled(reach, ...buffers) {
    within(buffers, (samples, cubics, readings) => read(reach, samples, cubics, readings));
  },
};
