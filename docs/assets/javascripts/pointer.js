/* Reading a figure: the values of its curves at the pointer, at a touch, and by the arrow keys. */
(() => {
  "use strict";

  const { shapeOf, readAt, value } = curves;
  const NEAR = 4; // units of the drawing within which the pointer takes a point
  const PAUSE = 500; // ms after the last movement before a screen reader is told
  const MOST = 24; // curves that are listed
  const SVG = "http://www.w3.org/2000/svg";

  function prepare(root) {
    for (const svg of root.querySelectorAll("figure > .scroll-box > svg[data-axes]")) {
      const readable = svg.querySelector("[data-curve], [data-dots]");
      if (readable && !svg.parentElement.querySelector(".figure-reader")) attach(svg);
    }
  }

  function attach(svg) {
    const title = svg.querySelector("title").textContent;
    const reader = made("div", "figure-reader no-print");
    const box = made("div", "figure-values");
    const said = made("span", "visually-hidden");
    Object.assign(reader, { tabIndex: 0, role: "application" });
    reader.setAttribute("aria-label", `Values of the curves of “${title}”: the arrow keys go from point to point`);
    box.hidden = true;
    box.setAttribute("aria-hidden", "true");
    said.role = "status";
    reader.append(box);
    svg.after(reader, said);
    new ResizeObserver(() => (reader.style.width = `${svg.getBoundingClientRect().width}px`)).observe(svg);

    let shape; // read when it is first wanted
    let rule; // drawn while a place is read
    let place = null;
    let speaking;

    /** Read the figure at a place across the drawing. */
    function show(x) {
      place = x;
      const found = readAt(shape, x);
      draw(x, found);
      list(x, found);
      clearTimeout(speaking);
      speaking = setTimeout(() => (said.textContent = sentence(x, found)), PAUSE);
    }

    function hide() {
      place = null;
      rule?.remove();
      box.hidden = true;
      clearTimeout(speaking);
      said.textContent = "";
    }

    function draw(x, found) {
      rule ??= document.createElementNS(SVG, "g");
      const [, { first, last }] = shape.axes;
      const line = drawn("path", { d: `M${x} ${last}V${first}`, stroke: "currentColor", "stroke-width": 0.75 });
      const marks = found.flatMap(({ colour, heights: seen }) =>
        seen.map((y) => drawn("circle", { cx: x, cy: y, r: 3.5, fill: "none", stroke: colour, "stroke-width": 1.75 })),
      );
      rule.setAttribute("class", "figure-rule");
      rule.replaceChildren(line, ...marks);
      svg.append(rule);
    }

    function list(x, found) {
      const [across, up] = shape.axes;
      const rows = found.slice(0, MOST).map(({ name, colour, dashes, dots, heights: seen }) => {
        const row = made("div", "figure-value");
        const key = document.createElementNS(SVG, "svg");
        key.setAttribute("viewBox", "0 0 22 8");
        const look = { stroke: colour, "stroke-width": 2, fill: "none" };
        const dot = { cx: 11, cy: 4, r: 3, ...look };
        key.append(dots ? drawn("circle", dot) : drawn("path", { d: "M0 4H22", "stroke-dasharray": dashes, ...look }));
        row.append(key, made("span", "", name), made("b", "", seen.map((y) => value(up, y)).join(" and ")));
        return row;
      });
      const head = made("div", "figure-place", `${across.label} ${value(across, x)} ${across.unit}`);
      const unit = made("div", "figure-unit", up.unit ? `${up.label} (${up.unit})` : up.label);
      const rest = found.length > MOST ? [made("div", "", `and ${found.length - MOST} more`)] : [];
      const none = found.length === 0 ? [made("div", "", "no curve here")] : [];
      box.replaceChildren(head, ...(found.length > 0 ? [unit] : none), ...rows, ...rest);
      box.hidden = false;
      const share = (x - across.first) / (across.last - across.first);
      const { left, width } = reader.getBoundingClientRect();
      const at = onScreen(x) - left;
      box.style.left = share < 0.5 ? `${at + 10}px` : "auto";
      box.style.right = share < 0.5 ? "auto" : `${width - at + 10}px`;
    }

    function sentence(x, found) {
      const [across, up] = shape.axes;
      const told = found.slice(0, MOST).map(({ name, heights: seen }) => {
        return `${name} ${seen.map((y) => value(up, y)).join(" and ")} ${up.unit}`.trim();
      });
      return `${across.label} ${value(across, x)} ${across.unit}: ${told.join(", ") || "no curve"}`;
    }

    function onScreen(x) {
      return new DOMPoint(x, 0).matrixTransform(svg.getScreenCTM()).x;
    }

    /** Read at the pointer, or at a point beside it. */
    function follow(event) {
      shape ??= shapeOf(svg);
      const { x } = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      const [{ first, last }] = shape.axes;
      const inside = Math.min(Math.max(x, first), last);
      const nearest = shape.stops.reduce((best, stop) => (Math.abs(stop - inside) < Math.abs(best - inside) ? stop : best));
      show(Math.abs(nearest - inside) < NEAR ? nearest : inside);
    }

    function onKey(event) {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.key === "Escape" && place !== null) {
        event.preventDefault();
        return hide();
      }
      shape ??= shapeOf(svg);
      const { stops } = shape;
      const ends = { Home: 0, End: stops.length - 1 };
      const many = event.shiftKey ? 10 : 1;
      const by = { ArrowRight: many, ArrowLeft: -many, PageUp: 10, PageDown: -10 }[event.key];
      if (by === undefined && !(event.key in ends)) return;
      event.preventDefault();
      show(stops[ends[event.key] ?? next(stops, by)]);
    }

    /** Return the number of the stop that a movement from the present place leads to. */
    function next(stops, by) {
      if (place === null) return by > 0 ? 0 : stops.length - 1;
      const after = stops.findIndex((stop) => stop > place + 1e-9);
      const here = after < 0 ? stops.length - 1 : after - 1;
      const isBetween = place - (stops[here] ?? place) > 1e-9;
      return Math.min(Math.max(here + by + (isBetween && by < 0 ? 1 : 0), 0), stops.length - 1);
    }

    reader.addEventListener("pointermove", follow);
    reader.addEventListener("pointerdown", follow);
    reader.addEventListener("pointerleave", ({ pointerType }) => pointerType === "mouse" && hide());
    reader.addEventListener("keydown", onKey);
    reader.addEventListener("blur", hide);
  }

  function made(tag, kind, content = "") {
    return Object.assign(document.createElement(tag), { className: kind, textContent: content });
  }

  function drawn(tag, attributes) {
    const shape = document.createElementNS(SVG, tag);
    for (const [name, content] of Object.entries(attributes)) shape.setAttribute(name, content);
    return shape;
  }

  prepare(document);
  document.addEventListener("answer", (event) => prepare(event.target));
})();
