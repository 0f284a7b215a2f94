/* Sheets of exercises for paper, with key and answers, all made from one link:
 *
 *   #exercises=tip_speed:1a2b3c.4d5e6f,solidity&seed=7&variants=14&paper=A4&title=Tuesday
 *
 * Behind the key of an exercise stand digests of its questions and of its answers, by which a later
 * release tells what it would print otherwise.  Sheets are of the order as it stands: with any change
 * of it they are gone.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const root = document.getElementById("sheets");
  const order = root.querySelector("form");
  const panel = root.querySelector(".exercise-made");
  const progress = root.querySelector(".exercise-progress");
  const trouble = root.querySelector(".exercise-trouble");
  const differs = root.querySelector(".exercise-changed");
  const stopper = root.querySelector("[data-do=stop]");
  const boxes = [...order.querySelectorAll("[type=checkbox]")];
  const KINDS = { sheet: "text/html", key: "text/html", csv: "text/csv" };
  const ENDS = { sheet: "exercises.html", key: "exercises_key.html", csv: "exercises_answers.csv" };
  let made = null; // what the engine made of the order as it stands
  let running = 0; // the newest run; 0 where none is under way

  order.addEventListener("input", close);
  order.addEventListener("submit", (event) => {
    event.preventDefault();
    make({});
  });
  order.addEventListener("focusin", () => engine.start().catch(() => {}), { once: true });
  root.addEventListener("click", onClick);
  document.addEventListener("keydown", ({ key }) => key === "Escape" && running && stop());
  addEventListener("hashchange", open);
  open();

  function held() {
    const number = (name) => (/^\d+$/.test(order.elements[name].value.trim()) ? Number(order.elements[name].value) : 0);
    return {
      keys: boxes.filter(({ checked }) => checked).map(({ value }) => value),
      seed: number("seed"),
      variants: number("variants"),
      title: order.elements.title.value,
      paper: order.elements.paper.value,
    };
  }

  /** Fill the order from the address, and make its sheets. */
  function open() {
    const given = new URLSearchParams(location.hash.slice(1));
    if (!given.has("exercises")) return;
    const linked = Object.fromEntries(given.get("exercises").split(",").map((one) => one.split(":")));
    for (const box of boxes) box.checked = Object.hasOwn(linked, box.value);
    for (const name of ["seed", "variants", "title", "paper"]) {
      if (given.has(name)) order.elements[name].value = given.get(name);
    }
    const unknown = Object.keys(linked).filter((key) => !boxes.some(({ value }) => value === key));
    make(linked, unknown);
  }

  async function make(linked, unknown = []) {
    close();
    const wanted = held();
    const mine = (running = Date.now() + Math.random());
    stopper.hidden = false;
    try {
      for (let variant = 1; variant <= Math.min(wanted.variants, 60); variant += 1) {
        progress.textContent = `Making variant ${variant} of ${wanted.variants} …`;
        const { keys, seed } = wanted;
        await desk.asked("exercises.asking.prepared", { keys, seed, variant }, "sheets");
        if (mine !== running) return;
      }
      const found = await desk.asked("exercises.asking.printed", { order: wanted, linked }, "sheets");
      if (mine !== running) return;
      show(found, wanted, unknown);
    } catch (error) {
      if (mine !== running) return;
      trouble.textContent = `${error.message}.`.replace("..", ".");
      trouble.hidden = false;
      progress.textContent = "";
    }
    running = 0;
    stopper.hidden = true;
  }

  function show(found, wanted, unknown) {
    made = { ...found, wanted };
    const lost = unknown.map((key) => `There is no exercise ${key.slice(0, 40)}: it is left out`);
    differs.replaceChildren(...[...found.changed, ...lost].map((text) => Object.assign(document.createElement("li"), { textContent: `${text}.` })));
    differs.hidden = differs.children.length === 0;
    for (const [part, title] of [["sheet", "The sheets, as they will be printed"], ["key", "The key, as it will be printed"]]) {
      const frame = Object.assign(document.createElement("iframe"), { srcdoc: found[part], title });
      frame.dataset.part = part;
      panel.append(frame);
    }
    panel.hidden = false;
    progress.textContent = `${wanted.variants} ${wanted.variants === 1 ? "variant" : "variants"} made, with their key.`;
    history.replaceState(history.state, "", address());
    panel.focus({ preventScroll: true });
  }

  /** Sheets of another order than the one that stands there are no sheets. */
  function close() {
    if (running) engine.stop("sheets");
    running = 0;
    made = null;
    stopper.hidden = panel.hidden = trouble.hidden = differs.hidden = true;
    stopper.hidden = true;
    progress.textContent = "";
    for (const frame of panel.querySelectorAll("iframe")) frame.remove();
  }

  function stop() {
    close();
    progress.textContent = "Stopped.";
  }

  function address() {
    const { seed, variants, title, paper } = made.wanted;
    const chosen = Object.entries(made.digests).map((pair) => pair.join(":")).join(",");
    const rest = new URLSearchParams({ seed, variants, paper, ...(title && { title }) });
    return `${location.href.split("#")[0]}#exercises=${chosen}&${rest}`;
  }

  async function onClick({ target }) {
    const { do: what, part } = target.dataset;
    if (what === "stop") stop();
    if (!made) return;
    if (what === "print") panel.querySelector(`iframe[data-part=${part}]`).contentWindow.print();
    if (what === "save") desk.download(made[part], ENDS[part], KINDS[part]);
    if (what === "link") desk.flash(target, (await desk.toClipboard(address())) ? "Copied" : "Press Ctrl+C");
  }
});
