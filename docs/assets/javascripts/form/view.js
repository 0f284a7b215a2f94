/* The view of a form: shows a state, and a result, in the page.
 *
 * Class names, kept stable for styles, tests and other scripts:
 *
 *   .calculator              a form; .live when its script runs; data-formula, data-name
 *   .calculator-title        its title
 *   .system-list             the units of the whole handbook
 *   .calculator-owner        whose numbers these are: .owner-list, and buttons in .calculator-ways
 *   .calculator-notice       what to know of a link
 *   .calculator-problems     the summary of problems, shown by an action that needs a result
 *   .calculator-fields       the inputs: .field (.entry, .words, .hint, .field-problem) with
 *                            [name], .unit-list or .unit, [data-slider]; and tables,
 *                            .entry-table[data-table] (.add-row, .raise-row, .lower-row, .remove-row,
 *                            .table-notice, what to know of a paste)
 *   .calculator-hint         the two meanings of an entry, each as a button
 *   .calculator-waiting      .calculator-progress, what is going on: starting, working, out of date;
 *                            and .stop, which stops a calculation, or starts a stopped one again
 *   .calculator-trouble      why the engine does not start
 *   .result-unit             the unit of a result, [data-result], or of a column of results
 *   .calculator-result       the result; .stale while it is that of earlier entries,
 *                            .pending while there is none for entries that came with a link
 *   .calculator-status       the spoken result
 *   .calculator-actions      buttons: [data-copy], [data-working], [data-digits], .undo, reset
 *
 * "answer" is dispatched on .calculator-result when a new result stands in it.
 */
(globalThis.calculator ??= {}).view = (() => {
  "use strict";

  const { entry, fields } = calculator;

  function show(form, shape, state) {
    for (const [key, field] of Object.entries(shape.fields)) {
      const value = state.values[key];
      if (field.kind === "table") showTable(fields.tableOf(form, key), field, value, state.system);
      else showField(fields.inputOf(form, key), field, value, state.system);
    }
    set(form.querySelector(".system-list"), state.system);
    form.querySelector("[data-digits]").value = state.digits;
    form.querySelector(".undo").setAttribute("aria-disabled", String(state.past.length === 0));
  }

  function showField(input, field, value, system) {
    if (field.kind !== "number") return set(input, value.text);
    const around = input.closest(".field");
    const key = entry.unitOf(value.own, field.units, system);
    set(input, entry.shown(value, key, field.units));
    const list = around.querySelector(".unit-list");
    if (list) set(list, key);
    const unit = field.units.find((one) => one.key === key);
    say(around.querySelector(".words"), unit.words);
    say(around.querySelector(".hint"), unit.hint);
    const slider = around.querySelector("[data-slider]");
    if (slider) showSlider(slider, unit, entry.inUnit(value, key, field.units));
  }

  /** A slider has the unit of its field, with round ends and steps in it. */
  function showSlider(slider, unit, position) {
    if (slider.dataset.unit !== unit.key) {
      [slider.min, slider.max, slider.step] = unit.scale;
      slider.dataset.unit = unit.key;
    }
    if (Number.isFinite(position)) slider.value = position;
  }

  function showTable(table, field, value, system) {
    const body = table.querySelector("tbody");
    const shownIn = field.columns.map(
      ({ units }, column) => units && entry.unitOf(value.own[column], units, system),
    );
    value.rows.forEach(({ id }, place) => (body.children[place]?.dataset ?? {}).row ??= id); // as made
    const old = new Map([...body.children].map((row) => [Number(row.dataset.row), row]));
    const blank = table.querySelector("template").content.firstElementChild;
    const rows = value.rows.map(({ id, cells }) => {
      const row = old.get(id) ?? blank.cloneNode(true);
      row.dataset.row = id;
      fields.cellsOf(row).forEach((input, column) => {
        const { units } = field.columns[column];
        const cell = cells[column];
        set(input, units ? entry.shown(cell, shownIn[column], units) : cell.text);
      });
      return row;
    });
    for (const row of [...body.children]) if (!rows.includes(row)) row.remove();
    rows.forEach((row, place) => {
      if (body.children[place] !== row) body.insertBefore(row, body.children[place] ?? null);
      nameRow(row, place, rows.length, field.columns);
    });
    table.querySelectorAll("thead th").forEach((head, column) => {
      const list = head.querySelector(".unit-list");
      if (list) set(list, shownIn[column]);
    });
    table.querySelector(".add-row").setAttribute("aria-disabled", String(rows.length >= field.atMost));
  }

  /** Say in the names of fields and buttons which row they are of: its number, and its first word. */
  function nameRow(row, place, count, columns) {
    const cells = fields.cellsOf(row);
    const word = cells[columns.findIndex(({ kind }) => kind === "word")]?.value.trim();
    const end = word ? `: ${word}` : "";
    const name = (part, text) => part.getAttribute("aria-label") === text || part.setAttribute("aria-label", text);
    cells.forEach((cell, column) => name(cell, `${columns[column].label}, row ${place + 1}`));
    const tool = (kind, text) => {
      const button = row.querySelector(`.${kind}-row`);
      name(button, `${text}${end}`);
      return button;
    };
    tool("remove", `Remove row ${place + 1}`);
    const ends = [tool("raise", `Move row ${place + 1} up`), tool("lower", `Move row ${place + 1} down`)];
    ends[0].setAttribute("aria-disabled", String(place === 0));
    ends[1].setAttribute("aria-disabled", String(place === count - 1));
  }

  function set(field, text) {
    if (field.value !== text) field.value = text;
  }

  function say(place, text) {
    if (place && place.textContent !== text) place.textContent = text;
  }

  /** Show lines of text in a notice; without any it is hidden. */
  function notice(box, lines) {
    if (box.dataset.told === JSON.stringify(lines)) return;
    box.dataset.told = JSON.stringify(lines);
    box.replaceChildren(
      ...lines.map((textContent) => Object.assign(document.createElement("p"), { textContent })),
    );
    box.hidden = lines.length === 0;
  }

  function button(text, action) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", action);
    return made;
  }

  /* ---- the result ---- */

  /** Put a result in, with its folds as the reader left them.
   *
   * A list of units that the reader is at stays the same list, so that letters typed in it go on. */
  function showResult(form, html) {
    const result = form.querySelector(".calculator-result");
    const at = result.contains(document.activeElement) ? document.activeElement : null;
    const folds = ["details.figure-data", "details.working"];
    const open = folds.map((fold) => result.querySelector(fold)?.open);
    const made = result.cloneNode();
    made.innerHTML = html;
    const twin = at?.dataset.result && made.querySelector(`[data-result="${CSS.escape(at.dataset.result)}"]`);
    if (!twin || !renewAround(result, at, made, twin)) {
      result.replaceChildren(...made.childNodes);
      twin?.focus({ preventScroll: true });
    }
    folds.forEach((fold, place) => {
      const details = result.querySelector(fold);
      if (details && open[place] !== undefined) details.open = open[place];
    });
    result.dispatchEvent(new Event("answer", { bubbles: true }));
  }

  /** Give an element the content of another, all but a part that stays; return whether it could. */
  function renewAround(old, kept, made, twin) {
    const way = (from, to) => (to === from ? [from] : [...way(from, to.parentElement), to]);
    const [olds, news] = [way(old, kept), way(made, twin)];
    const alike = olds.length === news.length && olds.every(({ tagName }, depth) => tagName === news[depth].tagName);
    if (!alike || kept.textContent !== twin.textContent) return false;
    olds.slice(1).forEach((stays, place) => {
      const like = news[place + 1];
      const others = [...like.parentNode.childNodes];
      for (const other of [...stays.parentNode.childNodes]) if (other !== stays) other.remove();
      stays.before(...others.slice(0, others.indexOf(like)));
      stays.after(...others.slice(others.indexOf(like) + 1));
      if (stays !== kept) stays.className = like.className;
    });
    return true;
  }

  function noResult(form, message) {
    const line = document.createElement("p");
    line.className = "no-result";
    line.textContent = `— ${message}`;
    form.querySelector(".calculator-result").replaceChildren(line);
  }

  return { show, notice, button, showResult, noResult };
})();
