/* The view of a data sheet: reads its shape from the page once, and shows a content in it. */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { entry, view } = calculator;
  const { kindOf } = calculator.fields;
  const { state } = dataSheet;

  function shapeOf(root) {
    const found = {};
    for (const section of root.querySelectorAll(".sheet-section")) {
      const most = Number(section.dataset.most ?? 0);
      const around = most ? section.querySelector("template").content : section;
      const fields = [...around.querySelectorAll(".sheet-field")].map((field) => {
        const { label, usual } = field.dataset;
        const kind = kindOf(field.querySelector(".sheet-entry"), field);
        return [field.dataset.field, { label, usual: usual !== undefined, ...kind }];
      });
      found[section.dataset.section] = { most, fields: Object.fromEntries(fields) };
    }
    return found;
  }

  /** Return what a part of the page is for: {section, row, name}; no name for a button of a row. */
  function placeOf(part) {
    const row = part.closest(".sheet-line")?.dataset.row;
    return {
      section: part.closest(".sheet-section").dataset.section,
      row: row === undefined ? undefined : Number(row),
      name: part.closest(".sheet-field")?.dataset.field,
    };
  }

  function sectionAt(root, key) {
    return root.querySelector(`.sheet-section[data-section="${CSS.escape(key)}"]`);
  }

  /** Show a content; numbers in the units of a system, but where the reader chose another. */
  function show(root, shape, { content, past }, system) {
    set(root.querySelector("[name=title]"), content.title);
    set(root.querySelector("[name=note]"), content.note);
    for (const [key, { most, fields }] of Object.entries(shape)) {
      const section = sectionAt(root, key);
      if (most) showRows(section, fields, content.rows[key], most, system);
      else showFields(section, fields, (name) => content.values[`${key}.${name}`], system);
      const count = section.querySelector(".sheet-count");
      const known = Object.entries(fields).filter(([name, f]) => !most && state.isKnown(content.values[`${key}.${name}`], f));
      const rows = content.rows[key]?.length;
      say(count, most ? `${rows} ${rows === 1 ? "row" : "rows"}` : `${known.length} of ${Object.keys(fields).length} given`);
    }
    root.querySelector("[data-do=undo]").setAttribute("aria-disabled", String(past.length === 0));
  }

  function showRows(section, fields, rows, most, system) {
    const box = section.querySelector(".sheet-rows");
    const old = new Map([...box.children].map((line) => [Number(line.dataset.row), line]));
    const blank = section.querySelector("template").content.firstElementChild;
    const lines = rows.map(({ id, values }, place) => {
      const line = old.get(id) ?? blank.cloneNode(true);
      line.dataset.row = id;
      showFields(line, fields, (name) => values[name], system);
      const words = Object.entries(fields).filter(([name, f]) => state.isKnown(values[name], f));
      const first = words.length > 0 ? values[words[0][0]].text : "nothing known";
      say(line.querySelector(".sheet-name"), `${place + 1}. ${first}`);
      for (const button of line.querySelectorAll("[data-do]")) {
        const does = { raise: "Move up", lower: "Move down", remove: "Remove" }[button.dataset.do];
        button.setAttribute("aria-label", `${does} row ${place + 1}: ${first}`);
      }
      return line;
    });
    for (const line of [...box.children]) if (!lines.includes(line)) line.remove();
    lines.forEach((line, place) => {
      if (box.children[place] !== line) box.insertBefore(line, box.children[place] ?? null);
    });
    section.querySelector("[data-do=add]").setAttribute("aria-disabled", String(rows.length >= most));
  }

  function showFields(around, fields, valueOf, system) {
    for (const box of around.querySelectorAll(".sheet-field")) {
      const field = fields[box.dataset.field];
      const value = valueOf(box.dataset.field);
      const input = box.querySelector(".sheet-entry");
      if (field.kind === "number") showNumber(box, input, field, value, system);
      else set(input, value.text);
      set(box.querySelector(".sheet-origin"), value.origin);
      const tolerance = box.querySelector(".sheet-tolerance");
      if (tolerance) set(tolerance, value.tolerance);
      box.classList.toggle("known", state.isKnown(value, field));
    }
  }

  function showNumber(box, input, field, value, system) {
    const key = state.shownIn(value, field, system);
    set(input, entry.shown(value, key, field.units));
    const list = box.querySelector(".unit-list");
    if (list) set(list, key);
    const { hint } = field.units.find((unit) => unit.key === key);
    say(box.querySelector(".hint"), hint);
    if (hint) input.setAttribute("aria-description", hint);
  }

  function set(field, text) {
    if (field.value !== text) field.value = text;
  }

  function say(place, text) {
    if (place.textContent !== text) place.textContent = text;
  }

  /** Show problems {line, field, message}: each beside its field, and all in a summary. */
  function showProblems(root, problems, head) {
    for (const line of root.querySelectorAll(".field-problem")) line.hidden = true;
    for (const input of root.querySelectorAll("[aria-invalid]")) input.removeAttribute("aria-invalid");
    const marked = [];
    for (const { field, message } of problems) {
      const input = fieldAt(root, field);
      if (!input?.closest(".sheet-field")) continue;
      input.setAttribute("aria-invalid", "true");
      marked.push(input);
      const beside = input.closest(".sheet-field").querySelector(".field-problem");
      beside.textContent = message;
      beside.hidden = false;
    }
    for (const section of root.querySelectorAll(".sheet-section")) {
      const wrong = marked.filter((input) => section.contains(input)).length;
      say(section.querySelector(".sheet-wrong"), wrong > 0 ? `, ${wrong} wrong` : "");
    }
    const box = root.querySelector(".sheet-problems");
    box.hidden = !head;
    if (!head) return;
    const list = document.createElement("ul");
    list.append(...problems.map((problem) => item(root, problem)));
    box.replaceChildren(line("p", head), list);
    box.focus();
  }

  function item(root, { line: number, field, message }) {
    const place = document.createElement("li");
    const where = [number && !field ? `line ${number}` : "", field].filter(Boolean).join(", ");
    place.append(wayTo(root, field, where ? `${where}: ${message}` : message));
    return place;
  }

  /** Return a text as a button that leads to a place, or as text where there is none. */
  function wayTo(root, place, text) {
    return fieldAt(root, place) ? view.button(text, () => goTo(fieldAt(root, place))) : text;
  }

  /** Go to a field or button, with all that folds around it open. */
  function goTo(part) {
    for (let up = part.closest("details"); up; up = up.parentElement.closest("details")) up.open = true;
    part.focus();
  }

  /** Return the field that is named, such as `lag.lag_damping`, `drive_train row 2.ratio` or, for
   * how far a value may be off, `lag.lag_damping.tolerance`; for a table, such as `drive_train`, the
   * button that adds a row. */
  function fieldAt(root, name) {
    const [, key, number, field, beside] = /^(\w+)(?: row (\d+))?(?:\.(\w+))?(?:\.(tolerance))?$/.exec(name) ?? [];
    const section = key && sectionAt(root, key);
    if (!field) return section?.querySelector("[data-do=add]") ?? null;
    const around = number ? section?.querySelectorAll(".sheet-line")[number - 1] : section;
    return around?.querySelector(`[data-field="${field}"] .sheet-${beside ?? "entry"}`) ?? null;
  }

  function line(tag, text) {
    return Object.assign(document.createElement(tag), { textContent: text });
  }

  /** Return what differs between two sheets as a table that can be scrolled. */
  function differenceTable(differences, after) {
    const table = document.createElement("table");
    table.className = "table";
    const row = (tag, texts) => {
      const made = document.createElement("tr");
      made.append(...texts.map((text) => line(tag, text)));
      return made;
    };
    table.append(row("th", ["Where", "Value", "Here", after]));
    for (const one of differences) table.append(row("td", [one.where, one.label, one.before, one.after]));
    const around = document.createElement("div");
    around.className = "scroll-box";
    around.tabIndex = 0;
    around.append(table);
    return around;
  }

  /** Show what differs before a sheet is replaced, with the ways to go on. */
  function compare(box, differences, head, ways) {
    const buttons = document.createElement("p");
    buttons.append(...ways.flatMap(([text, action]) => [view.button(text, action), " "]));
    box.replaceChildren(line("p", head), buttons, differenceTable(differences, "In the file"));
    box.hidden = false;
    box.focus();
  }

  (globalThis.dataSheet ??= {}).view = { shapeOf, placeOf, fieldAt, wayTo, goTo, show, showProblems, compare, differenceTable };
});
