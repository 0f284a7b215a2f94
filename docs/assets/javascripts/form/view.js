/* The view of a form: reads its shape from the page once, and shows a state in it.
 *
 * Class names, kept stable for styles, tests and other scripts:
 *
 *   .calculator              a form; .live when its script runs; data-formula, data-name
 *   .calculator-title        its title
 *   .system-list             the units of the whole handbook
 *   .calculator-owner        whose numbers these are: .owner-list, and buttons in .calculator-ways
 *   .calculator-notice       what to know of a link or of a paste
 *   .calculator-problems     the summary of problems, shown by an action that needs a result
 *   .calculator-fields       the inputs: .field (.entry, .words, .hint, .field-problem) with
 *                            [name], .unit-list or .unit, [data-slider]; and tables,
 *                            .entry-table[data-table] (.add-row, .raise-row, .lower-row, .remove-row)
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

  const { entry } = calculator;
  const NO_UNIT = { key: "", name: "", size: 1, zero: 0, also: [], systems: [], words: "", hint: "", scale: [] };

  /* ---- the shape of a form, from the page ---- */

  function shapeOf(form) {
    const fields = {};
    for (const field of form.querySelectorAll(".field, .entry-table")) {
      const { label, table, record } = field.dataset;
      const input = field.querySelector("[name]");
      if (!table) fields[input.name] = { label, record, ...kindOf(input, field) };
      else fields[table] = { label, record, kind: "table", ...columnsOf(field) };
    }
    const title = form.querySelector(".calculator-title").textContent;
    const { name, formula } = form.dataset;
    const { systems } = calculator.units;
    const results = {};
    for (const list of form.querySelectorAll(".result-unit")) {
      results[list.dataset.result] = [...list.options].map(({ value }) => value);
    }
    return { name, formula, title, keys: Object.keys(fields), fields, systems, results };
  }

  function kindOf(input, around) {
    if (input.matches("select")) {
      const options = [...input.options].map(({ value, text }) => ({ key: value, label: text }));
      return { kind: "choice", options };
    }
    return input.matches(".word") ? { kind: "word" } : { kind: "number", units: unitsIn(around) };
  }

  function unitsIn(around) {
    const found = [...around.querySelectorAll(".unit-list option, .unit")];
    const units = found.map((place) => ({
      key: place.value ?? place.dataset.unit,
      name: place.text ?? place.textContent,
      size: Number(place.dataset.size ?? 1),
      zero: Number(place.dataset.zero ?? 0),
      also: (place.dataset.also ?? "").split("|").filter(Boolean),
      systems: (place.dataset.systems ?? "").split(" "),
      scale: (place.dataset.scale ?? "").split(" "),
      words: place.dataset.words ?? "",
      hint: place.dataset.hint ?? "",
    }));
    for (const unit of units) if (unit.key === "") unit.name = "";
    return units.length > 0 ? units : [NO_UNIT];
  }

  function columnsOf(table) {
    const cells = fieldsOf(table.querySelector("template").content.firstElementChild);
    const heads = [...table.querySelectorAll("thead th")];
    const columns = cells.map((cell, place) => {
      return { label: heads[place].dataset.label, ...kindOf(cell, heads[place]) };
    });
    const first = (place) => columns[place].units?.[0].key;
    const empty = cells.map((cell, place) => ({ text: cell.value, unit: first(place) }));
    const [atMost, leastCells] = [table.dataset.atMost, table.dataset.leastCells].map(Number);
    return { columns, empty, atMost, leastCells };
  }

  /** Return the entries that stand in the page, as texts; of the page as it was made, or as it is. */
  function entriesOf(form, shape, asMade) {
    const text = (field) => (asMade && field.matches("input") ? field.defaultValue : field.value);
    const option = (list) => [...list.options].find((o) => o.defaultSelected) ?? list.options[0];
    const chosen = (list) => (asMade ? option(list).value : list.value);
    const unit = (around) => {
      const list = around.querySelector(".unit-list");
      return list ? chosen(list) : around.querySelector(".unit")?.dataset.unit ?? "";
    };
    const joined = (field, around, { kind, units }) => {
      if (kind === "choice") return chosen(field);
      if (kind === "word") return text(field);
      const key = unit(around);
      return entry.joined({ text: text(field), unit: key }, key === units[0].key ? null : key, units);
    };
    const own = ([key, shapeOfField]) => {
      const { kind, columns } = shapeOfField;
      const field = inputOf(form, key);
      if (kind !== "table") return [key, joined(field, field.closest(".field"), shapeOfField)];
      const table = tableOf(form, key);
      const heads = table.querySelectorAll("thead th");
      const rows = [...table.querySelectorAll("tbody tr")].map((row) =>
        fieldsOf(row).map((cell, c) => encodeURIComponent(joined(cell, heads[c], columns[c]))).join(","),
      );
      return [key, rows.join(";")];
    };
    return Object.fromEntries(Object.entries(shape.fields).map(own));
  }

  /** Return the field of an input; a form's own list of fields has names of its own, as `length`. */
  function inputOf(form, key) {
    return form.querySelector(`.entry [name="${CSS.escape(key)}"]`);
  }

  function tableOf(form, key) {
    return form.querySelector(`[data-table="${CSS.escape(key)}"]`);
  }

  function fieldsOf(row) {
    return [...row.querySelectorAll("input, select")];
  }

  /** Return what a field of the page is for: {key}, with the row and the column in a table. */
  function placeOf(element) {
    const table = element.closest("[data-table]");
    if (!table) return { key: element.closest(".field").querySelector("[name]").name };
    const key = table.dataset.table;
    const column = element.closest("th, td").cellIndex;
    const row = element.closest("tbody tr");
    return row ? { key, row: Number(row.dataset.row), column } : { key, column };
  }

  /** Return the field for a place, which may also be given by the number of its row. */
  function fieldAt(form, { key, row, column, number }) {
    const table = tableOf(form, key);
    if (!table) return inputOf(form, key);
    const rows = [...table.querySelectorAll("tbody tr")];
    const found = rows.find((one, place) => place === number || Number(one.dataset.row) === row);
    return (found && fieldsOf(found)[column]) ?? table.querySelector("tbody input, tbody select, .add-row");
  }

  /* ---- a state in the page ---- */

  function show(form, shape, state) {
    for (const [key, field] of Object.entries(shape.fields)) {
      const value = state.values[key];
      if (field.kind === "table") showTable(tableOf(form, key), field, value, state.system);
      else showField(inputOf(form, key), field, value, state.system);
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
      fieldsOf(row).forEach((input, column) => {
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
    const cells = fieldsOf(row);
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

  /** Show lines of text in the notice; without any it is hidden. */
  function notice(form, lines) {
    const box = form.querySelector(".calculator-notice");
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

  /** Put a result in, with its folds as the reader left them and the reader at the same list. */
  function showResult(form, html) {
    const result = form.querySelector(".calculator-result");
    const at = result.contains(document.activeElement) && document.activeElement.dataset.result;
    const folds = ["details.figure-data", "details.working"];
    const open = folds.map((fold) => result.querySelector(fold)?.open);
    result.innerHTML = html;
    folds.forEach((fold, place) => {
      const details = result.querySelector(fold);
      if (details && open[place] !== undefined) details.open = open[place];
    });
    if (at) result.querySelector(`[data-result="${CSS.escape(at)}"]`)?.focus({ preventScroll: true });
    result.dispatchEvent(new Event("answer", { bubbles: true }));
  }

  function noResult(form, message) {
    const line = document.createElement("p");
    line.className = "no-result";
    line.textContent = `— ${message}`;
    form.querySelector(".calculator-result").replaceChildren(line);
  }

  return { shapeOf, kindOf, entriesOf, placeOf, fieldAt, tableOf, show, notice, button, showResult, noResult };
})();
