/* Reading a figure: the values of its curves at the pointer, at a touch, and by the arrow keys. */
(() => {
  "use strict";

  const { shapeOf, readAt, value } = curves;
  const NEAR = 4; // units of the drawing within which the pointer takes a point
  const PAUSE = 500; // ms after the last movement before a screen reader is told
  const MOST = 24; // curves that a screen reader is told
  const LISTED = 6; // curves beside the pointer, so that the list does not cover the figure
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
    let height; // of the pointer, or where the keys left it: the curves nearest to it are listed
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
      height ??= (up.first + up.last) / 2;
      const rows = nearest(found).map(({ name, colour, dashes, dots, heights: seen }) => {
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
      const more = `and ${found.length - LISTED} farther off`;
      const rest = found.length > LISTED ? [made("div", "", more)] : [];
      const none = found.length === 0 ? [made("div", "", "no curve here")] : [];
      box.replaceChildren(head, ...(found.length > 0 ? [unit] : none), ...rows, ...rest);
      box.hidden = false;
      const share = (x - across.first) / (across.last - across.first);
      const { left, width } = reader.getBoundingClientRect();
      const at = onScreen(x) - left;
      box.style.left = share < 0.5 ? `${at + 10}px` : "auto";
      box.style.right = share < 0.5 ? "auto" : `${width - at + 10}px`;
    }

    /** Return the curves that pass nearest, in their order; those of one height keep it too. */
    function nearest(found) {
      const distance = ({ heights: seen }) => Math.min(...seen.map((y) => Math.abs(y - height)));
      const near = [...found].sort((a, b) => distance(a) - distance(b)).slice(0, LISTED);
      return found.filter((curve) => near.includes(curve));
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
      const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
      const { x } = at;
      height = at.y;
      const [{ first, last }] = shape.axes;
      const inside = Math.min(Math.max(x, first), last);
      const stop = shape.stops.reduce((best, one) => (Math.abs(one - inside) < Math.abs(best - inside) ? one : best));
      show(Math.abs(stop - inside) < NEAR ? stop : inside);
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
      if (["ArrowUp", "ArrowDown"].includes(event.key) && place !== null) return raise(event, many);
      const by = { ArrowRight: many, ArrowLeft: -many, PageUp: 10, PageDown: -10 }[event.key];
      if (by === undefined && !(event.key in ends)) return;
      event.preventDefault();
      show(stops[ends[event.key] ?? next(stops, by)]);
    }

    /** The keys up and down list what passes higher or lower. */
    function raise(event, many) {
      event.preventDefault();
      const { first, last } = shape.axes[1];
      const by = ((last - first) / 20) * (event.key === "ArrowUp" ? many : -many);
      height = Math.min(Math.max(height + by, Math.min(first, last)), Math.max(first, last));
      show(place);
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
