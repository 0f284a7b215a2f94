/* Zoom into a figure of a view: by dragging across it, by its buttons, and by the keys + - and 0.
 *
 * A view that can be zoomed names two of its fields, data-low and data-high; empty they mean the
 * whole.  What is shown is asked for anew, so that a small part is drawn with all its lines.
 *
 * `own` is the desk, as desk.js makes it; `views` are its views.
 */
(() => {
  "use strict";

  const LEAST = 8; // units of the drawing that a drag is long at least
  const SVG = "http://www.w3.org/2000/svg";

  function of(own, views) {
    const { root } = own;
    let drag = null; // {box, svg, axis, from, mark}

    root.addEventListener("pointerdown", begin);
    root.addEventListener("pointermove", follow);
    root.addEventListener("pointerup", end);
    root.addEventListener("pointercancel", drop);
    root.addEventListener("keydown", onKey);
    return { closer: by(0.5), wider: by(2), whole: (pressed) => whole(pressed.closest(".record-view")) };

    function figureOf(target) {
      const box = target.closest(".record-view[data-low]");
      const svg = target.closest("figure")?.querySelector("svg[data-axes]");
      return box && svg ? { box, svg, axis: axisOf(svg) } : null;
    }

    function axisOf(svg) {
      const [[first, last, low, high, , , log]] = JSON.parse(svg.dataset.axes);
      return { first, last, low, high, log };
    }

    function begin(event) {
      const at = event.button === 0 && event.target.closest(".figure-reader") && figureOf(event.target);
      if (!at || event.pointerType === "touch") return; // a finger moves the page
      drag = { ...at, from: placeOf(at.svg, event) };
    }

    function follow(event) {
      if (!drag) return;
      const to = placeOf(drag.svg, event);
      if (!drag.mark && Math.abs(to - drag.from) < LEAST) return;
      if (!drag.mark) {
        drag.mark = document.createElementNS(SVG, "rect");
        drag.mark.setAttribute("class", "zoom-mark");
        drag.svg.append(drag.mark);
      }
      const [, [bottom, top]] = JSON.parse(drag.svg.dataset.axes);
      const place = { x: Math.min(drag.from, to), width: Math.abs(to - drag.from), y: top, height: bottom - top };
      for (const [name, value] of Object.entries(place)) drag.mark.setAttribute(name, value);
    }

    function end(event) {
      if (drag?.mark) zoom(drag.box, ...[drag.from, placeOf(drag.svg, event)].map((x) => valueAt(drag.axis, x)));
      drop();
    }

    function drop() {
      drag?.mark?.remove();
      drag = null;
    }

    function onKey(event) {
      if (event.ctrlKey || event.metaKey || event.altKey || !event.target.matches(".figure-reader")) return;
      const at = figureOf(event.target);
      const act = { "+": 0.5, "=": 0.5, "-": 2, 0: Infinity }[event.key];
      if (!at || act === undefined) return;
      event.preventDefault();
      own.focusFigure(at.box);
      if (act === Infinity) return whole(at.box);
      const rule = at.svg.querySelector(".figure-rule path")?.getAttribute("d");
      around(at, rule ? Number(/^M([-\d.]+)/.exec(rule)[1]) : null, act);
    }

    /** Return what a button does: a share of what is shown, about its middle. */
    function by(share) {
      return (pressed) => {
        const at = figureOf(pressed.closest(".record-view").querySelector("figure svg[data-axes]") ?? pressed);
        if (at) around(at, null, share);
      };
    }

    function around({ box, axis }, place, share) {
      const middle = place ?? (axis.first + axis.last) / 2;
      const half = (share * (axis.last - axis.first)) / 2;
      zoom(box, valueAt(axis, middle - half), valueAt(axis, middle + half));
    }

    function zoom(box, one, other) {
      const [low, high] = [Math.min(one, other), Math.max(one, other)];
      const short = (value) => String(Number(Math.max(value, 0).toPrecision(6)));
      views.set(box, { [box.dataset.low]: short(low), [box.dataset.high]: short(high) });
    }

    function whole(box) {
      views.set(box, { [box.dataset.low]: "", [box.dataset.high]: "" });
    }

    function placeOf(svg, { clientX, clientY }) {
      return new DOMPoint(clientX, clientY).matrixTransform(svg.getScreenCTM().inverse()).x;
    }

    function valueAt({ first, last, low, high, log }, place) {
      const share = (place - first) / (last - first);
      return log ? low * (high / low) ** share : low + (high - low) * share;
    }
  }

  recordDesk.zoom = { of };
})();
