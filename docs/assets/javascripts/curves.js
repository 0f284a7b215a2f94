/* The curves of a figure, read from its drawing.
 *
 * A figure carries what its axes mean (data-axes: for either axis its ends on the drawing, the
 * values there, label, unit, whether logarithmic) and the names of its curves (data-curve) and of
 * its separate points (data-dots).  The values are those of the drawing, to four digits or to as
 * many as a thousandth of its unit of length can tell.
 */
globalThis.curves = (() => {
  "use strict";

  const DIGITS = 4;
  const FINEST = 0.001; // of the unit of the drawing
  const WIDEST = 1 / 40; // of the figure, between two stops
  const BEYOND = 9999; // where calc/chart puts what lies too far out to be drawn

  /* ---- the figure ---- */

  /** Return the axes and the curves of a figure. */
  function shapeOf(svg) {
    const axes = JSON.parse(svg.dataset.axes).map(
      ([first, last, low, high, label, unit, log]) => ({ first, last, low, high, label, unit, log }),
    );
    const lines = [...svg.querySelectorAll("[data-curve]")].map((path) => ({
      name: path.dataset.curve,
      colour: path.getAttribute("stroke"),
      dashes: path.getAttribute("stroke-dasharray") ?? "",
      runs: runsOf(path.getAttribute("d")),
    }));
    const dots = [...svg.querySelectorAll("[data-dots]")].map((path) => ({
      name: path.dataset.dots,
      colour: path.getAttribute("stroke"),
      dots: dotsOf(path.getAttribute("d")),
    }));
    const curves = [...lines, ...dots];
    return { axes, curves, stops: stopsOf(axes, curves) };
  }

  /** Return the points of a line, in unbroken runs. */
  function runsOf(path) {
    return path.split("M").slice(1).map((run) => run.split("L").map((pair) => pair.split(" ").map(Number)));
  }

  /** Return the places of points, of the ends of stems, and of the middles of bars. */
  function dotsOf(path) {
    const one = /M([-\d.]+) ([-\d.]+)(?:V([-\d.]+))?(?:H([-\d.]+))?/g;
    return [...path.matchAll(one)].map(([, x, y, end, far]) => {
      return [far === undefined ? Number(x) : (Number(x) + Number(far)) / 2, Number(end ?? y)];
    });
  }

  /** Return where the keys stop: at each point, and between points that are far from one another. */
  function stopsOf([{ first, last }], curves) {
    const found = curves.flatMap(({ runs, dots }) => (dots ?? runs.flat()).map(([x]) => x));
    const inside = [first, ...found, last].filter((x) => x >= first && x <= last).sort((a, b) => a - b);
    const stops = [];
    for (const x of inside) {
      const before = stops.at(-1) ?? x;
      if (stops.length > 0 && x - before < 0.05) continue;
      const parts = Math.ceil((x - before) / (last - first) / WIDEST - 1e-6);
      for (let part = 1; part < parts; part++) stops.push(before + ((x - before) * part) / parts);
      stops.push(x);
    }
    return stops;
  }

  /** Return what is read at a place: each curve that is seen there, with the heights it has. */
  function readAt({ axes: [, { first: bottom, last: top }], curves }, x) {
    const isSeen = (y) => y >= top - 0.01 && y <= bottom + 0.01;
    return curves
      .map((curve) => {
        const all = curve.dots ? heightsOfDots(curve.dots, x) : curve.runs.flatMap((run) => heights(run, x));
        const seen = all.filter(isSeen);
        return { ...curve, heights: seen.filter((y, n) => !seen.slice(0, n).some((z) => Math.abs(y - z) < 0.05)) };
      })
      .filter(({ heights: seen }) => seen.length > 0);
  }

  function heightsOfDots(dots, x) {
    return dots.filter(([place]) => Math.abs(place - x) < 0.05).map(([, y]) => y);
  }

  function heights(run, x) {
    const found = [];
    if (run.length === 1 && Math.abs(run[0][0] - x) < 0.05) found.push(run[0][1]);
    for (let n = 1; n < run.length; n++) {
      const [[x1, y1], [x2, y2]] = [run[n - 1], run[n]];
      if (Math.max(Math.abs(x1), Math.abs(y1), Math.abs(x2), Math.abs(y2)) > BEYOND) continue;
      if (x < Math.min(x1, x2) - 1e-9 || x > Math.max(x1, x2) + 1e-9) continue;
      if (x1 === x2) found.push(y1, y2);
      else found.push(y1 + ((y2 - y1) * (x - x1)) / (x2 - x1));
    }
    return found;
  }

  /* ---- numbers ---- */

  /** Return the value at a place on an axis, as text. */
  function value({ first, last, low, high, log }, place) {
    const share = (place - first) / (last - first);
    const step = FINEST / Math.abs(last - first);
    const found = log ? low * (high / low) ** share : low + (high - low) * share;
    const finest = Math.abs(log ? found * Math.log(high / low) * step : (high - low) * step);
    return text(found, finest);
  }

  /** Return a number as calc/digits.py does, but with no digit finer than the drawing tells. */
  function text(number, finest) {
    if (Math.abs(number) < finest) return "0";
    const told = 1 + Math.floor(Math.floor(Math.log10(Math.abs(number))) - Math.log10(finest) + 1e-9);
    const digits = Math.max(1, Math.min(DIGITS, told));
    const [mantissa, exponent] = number.toExponential(digits - 1).split("e");
    const power = Number(exponent);
    const plain = power > -4 && power < 7;
    const raised = [...String(power)].map((sign) => (sign === "-" ? "⁻" : "⁰¹²³⁴⁵⁶⁷⁸⁹"[sign])).join("");
    const written = plain ? number.toFixed(Math.max(0, digits - 1 - power)) : `${mantissa}×10${raised}`;
    return written.replace("-", "−");
  }

  return { shapeOf, readAt, value };
})();
