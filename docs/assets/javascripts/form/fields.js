/* The fields of a form in the page: the shape that they give it, what stands in them, their places. */
(globalThis.calculator ??= {}).fields = (() => {
  "use strict";

  const { entry } = calculator;
  const NO_UNIT = { key: "", name: "", size: 1, zero: 0, also: [], systems: [], words: "", hint: "", scale: [] };

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
    const cells = cellsOf(table.querySelector("template").content.firstElementChild);
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
        cellsOf(row).map((cell, c) => encodeURIComponent(joined(cell, heads[c], columns[c]))).join(","),
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

  function cellsOf(row) {
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
    return (found && cellsOf(found)[column]) ?? table.querySelector("tbody input, tbody select, .add-row");
  }

  return { shapeOf, kindOf, entriesOf, inputOf, tableOf, cellsOf, placeOf, fieldAt };
})();
