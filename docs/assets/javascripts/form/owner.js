/* Whose numbers stand in a form: those of the example, of one of the reader's rotorcraft, or of a
 * link; and the ways from one to the other.
 *
 * `acts` are what the form does: load(entries, origin, owner), edit(change), entries(), start().
 */
(globalThis.calculator ??= {}).owner = (() => {
  "use strict";

  const { fleet, view, desk } = calculator;
  const NEW = "new";
  const FROM_LINK = "from a link";

  /** Show the line of a form: the list of owners, and the ways that are open in this state. */
  function show(form, shape, state, acts) {
    const { list } = fleet.names();
    const box = form.querySelector(".calculator-owner");
    box.hidden = false;
    const options = [["example", "the example"], ...list.map(({ id, name }) => [String(id), name])];
    if (state.origin === "link") options.push(["link", "a link"]);
    options.push([NEW, "another rotorcraft …"]);
    const chosen = state.origin === "mine" ? String(state.owner) : state.origin;
    const ways = waysFrom(shape, state, acts, fleet.names());
    const told = JSON.stringify([options, chosen, ways.map(([way]) => way)]);
    if (box.dataset.told === told) return;
    box.dataset.told = told;
    const owners = box.querySelector("select") ?? made(box, shape, acts);
    owners.replaceChildren(...options.map(([value, text]) => new Option(text, value)));
    owners.value = chosen;
    const buttons = box.querySelector(".calculator-ways");
    if (buttons.contains(document.activeElement)) owners.focus();
    buttons.replaceChildren(...ways.flatMap(([text, action]) => [view.button(text, action), " "]));
  }

  /** Make the list, once. */
  function made(box, shape, acts) {
    const label = document.createElement("label");
    const list = document.createElement("select");
    list.className = "owner-list";
    label.append("Numbers of ", list);
    const ways = document.createElement("span");
    ways.className = "calculator-ways";
    box.replaceChildren(label, " ", ways);
    list.addEventListener("change", () => {
      if (list.value === NEW) askName(box, "", (name) => add(name, shape, acts));
      else if (list.value === "example") acts.load(acts.start(), "example");
      else if (list.value !== "link") take(shape, acts, Number(list.value));
    });
    return list;
  }

  /** Put in the numbers of a rotorcraft; what it has none for stays as in the example. */
  function take(shape, acts, id) {
    fleet.choose(id);
    acts.load({ ...acts.start(), ...fleet.kept(id, shape) }, "mine", id);
  }

  /** Give the numbers that stand in the form to a rotorcraft of another name. */
  function add(name, shape, acts) {
    acts.load(acts.entries(), "mine", fleet.add(name, shape, acts.entries()));
  }

  function waysFrom(shape, state, acts, { current, list }) {
    const mine = fleet.kept(current?.id, shape);
    const back = () => take(shape, acts, current?.id);
    if (state.origin === "example") {
      const differs = mine && !desk.same({ ...acts.start(), ...mine }, acts.start());
      const known = list.length < 2 && fleet.has(current?.id, shape);
      const offer = known ? "Bring back my last numbers" : `Use the numbers of “${current?.name}”`;
      return differs ? [[offer, back]] : [];
    }
    if (state.origin === "mine") {
      const name = list.find(({ id }) => id === state.owner)?.name ?? "";
      const rename = (box) => askName(box, name, (text) => fleet.rename(state.owner, text));
      const earlier = fleet.earlier(state.owner, shape);
      const differs = earlier && !desk.same({ ...acts.start(), ...earlier }, acts.entries());
      const before = () => acts.load({ ...acts.start(), ...earlier }, "mine", state.owner);
      return [
        ...(differs ? [["Bring back the numbers before these", before]] : []),
        ["Rename", ({ target }) => rename(target.closest(".calculator-owner"))],
        ["Remove", ({ target }) => remove(target, state.owner, acts)],
      ];
    }
    const ways = [];
    const goOn = () => acts.edit({ doubts: [], touched: state.touched });
    if (state.doubts.length > 0) ways.push(["Go on with the numbers shown", goOn]);
    if (mine) ways.push(["Back to mine", back], ["Keep these beside mine", () => add(FROM_LINK, shape, acts)]);
    else ways.push(["Keep these as mine", () => acts.load(acts.entries(), "mine")]);
    return ways;
  }

  /** Removing asks once more, for it cannot be undone. */
  function remove(pressed, id, acts) {
    if (!desk.isSure(pressed, "Remove these numbers for good")) return;
    fleet.remove(id);
    acts.load(acts.start(), "example");
  }

  /** Ask for a name in the line itself. */
  function askName(box, name, done) {
    const field = document.createElement("input");
    field.className = "owner-name";
    field.maxLength = 40;
    field.value = name ?? "";
    field.setAttribute("aria-label", "Name of the rotorcraft");
    const leave = (kept) => {
      delete box.dataset.told;
      box.querySelector("select").focus();
      if (kept && field.value.trim()) done(field.value);
      document.dispatchEvent(new Event("fleet"));
    };
    field.addEventListener("keydown", (event) => {
      if (event.key === "Enter") leave(true);
      else if (event.key === "Escape") leave(false);
    });
    const buttons = box.querySelector(".calculator-ways");
    const keep = view.button("Keep this name", () => leave(true));
    buttons.replaceChildren(field, " ", keep, " ", view.button("Cancel", () => leave(false)));
    field.focus();
  }

  return { show };
})();
