/* Live forms: sends what the reader typed to calc in the engine and shows its answer.
 *
 * All wording, reading of numbers, units, results and links come from Python (calc/form); this file
 * only moves text between the page and the engine.
 */
(() => {
  "use strict";

  const PAUSE = 600; // ms after the last change before a screen reader is told the result

  for (const form of document.querySelectorAll("form.calculator")) enliven(form);
  openLink();
  addEventListener("hashchange", openLink);

  function enliven(form) {
    const name = form.dataset.formula;
    const part = (kind) => form.querySelector(`.calculator-${kind}`);
    const result = part("result");
    const example = { html: result.innerHTML, entries: null };
    let edited = false; // by the reader: such entries are kept for the next visit
    let speaking;

    for (const list of form.querySelectorAll("select")) list.dataset.last = list.value;
    example.entries = entries();
    form.api = { entries, fill, names: () => Object.keys(example.entries) };
    form.classList.add("live");
    if (saved() && JSON.stringify(saved()) !== JSON.stringify(example.entries)) offerSaved();

    for (const sign of ["pointerover", "focusin"]) form.addEventListener(sign, wake, { once: true });
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", onInput);
    form.addEventListener("change", onChange);
    form.addEventListener("click", onClick);
    form.addEventListener("reset", (event) => {
      event.preventDefault();
      fill(example.entries);
      edited = false;
      notice();
      tell({ html: example.html, spoken: "Back to the example", problems: [] });
    });

    function wake() {
      engine.start().catch((error) => failed(error));
    }

    /* ---- what the reader typed ---- */

    function entries() {
      const found = {};
      for (const field of form.querySelectorAll("[name], [data-table]")) {
        if (field.dataset.table) found[field.dataset.table] = rows(field);
        else found[field.name] = entry(field, unitOf(field));
      }
      return found;
    }

    function entry(field, unit) {
      const { typed, typedUnit } = field.dataset;
      return typed === undefined ? joined(field.value, unit?.value) : joined(typed, typedUnit);
    }

    function rows(table) {
      const units = unitsOf(table);
      return [...table.querySelectorAll("tbody tr")]
        .map((row) =>
          [...row.querySelectorAll("input, select")]
            .map((cell, column) => encodeURIComponent(entry(cell, units[column])))
            .join(","),
        )
        .join(";");
    }

    /** Put entries into the fields, exactly as they were typed. */
    function fill(values) {
      for (const [key, text] of Object.entries(values)) {
        const table = form.querySelector(`[data-table="${CSS.escape(key)}"]`);
        const field = form.querySelector(`[name="${CSS.escape(key)}"]`);
        if (table) fillRows(table, text);
        else if (field) place(field, unitOf(field), text);
      }
    }

    function columnUnit(field) {
      const cell = field.closest("td");
      return cell && unitsOf(cell.closest("[data-table]"))[cell.cellIndex];
    }

    function fillRows(table, text) {
      const body = table.querySelector("tbody");
      body.replaceChildren();
      text.split(";").filter(Boolean).slice(0, 200).forEach((row, number) => {
        const fresh = newRow(table);
        const cells = row.split(",").map((cell) => safely(decodeURIComponent, cell));
        [...fresh.querySelectorAll("input, select")].forEach((field, column) => {
          const unit = unitsOf(table)[column];
          // a link from before a column was added has no cell for it: the new row's value stands
          place(field, unit, cells[column] ?? joined(field.value, unit?.options?.[0].value), number > 0);
        });
        body.append(fresh);
      });
    }

    function onInput(event) {
      const field = event.target;
      if (isUnit(field)) return; // the change that follows converts
      edited = true;
      if (field.dataset.slider) {
        const twin = form.elements[field.dataset.slider];
        const unit = unitOf(twin);
        if (unit) unit.value = field.dataset.unit;
        if (unit) words(unit);
        twin.value = field.value;
        forget(twin);
      } else if (field.matches("input")) {
        forget(field, unitOf(field) ?? columnUnit(field));
      }
      compute();
    }

    function onChange(event) {
      const field = event.target;
      if (field.matches("[data-digits]")) compute();
      else if (isUnit(field)) changeUnit(field);
      else if (field.matches(".entry input[name]")) adoptUnit(field);
    }

    /** A unit typed behind the number moves into the list beside it. */
    function adoptUnit(field) {
      const unit = unitOf(field);
      const [, number, typed] = field.value.match(/^(.*?[\d.,])\s*([^\d.,]*)$/) ?? [];
      const option = unit && [...unit.options].find((o) => typed && [o.value, o.text].includes(typed.trim()));
      if (!option) return;
      unit.value = option.value;
      field.value = number.trim();
      forget(field, unit);
      words(unit);
      compute(); // an answer under way was for the entry as it stood before
    }

    /** Convert what was typed; back in its own unit the text returns as it was. */
    async function changeUnit(unit) {
      words(unit);
      const table = unit.closest("[data-table]");
      const column = table && unitsOf(table).indexOf(unit);
      const fields = table
        ? [...table.querySelectorAll("tbody tr")].map((row) => row.querySelectorAll("input, select")[column])
        : [unit.parentElement.querySelector("input")];
      const last = unit.dataset.last;
      unit.dataset.last = unit.value;
      try {
        await Promise.all(fields.map((field) => convert(field, unit, last, table ? `${table.dataset.table}.${column}` : field.name)));
      } catch (error) {
        failed(error);
      }
    }

    async function convert(field, unit, last, key) {
      field.dataset.typed ??= field.value;
      field.dataset.typedUnit ??= last;
      const { typed, typedUnit } = field.dataset;
      if (unit.value === typedUnit) field.value = typed;
      else field.value = await asked("form.calculation.converted", { name, key, typed: joined(typed, typedUnit), unit_key: unit.value });
    }

    /* ---- the answer ---- */

    async function compute() {
      result.classList.add("stale");
      const given = { name, entries: entries(), digits: Number(form.querySelector("[data-digits]").value) };
      try {
        const answer = await asked("form.answer.answer", given, `${name} answer`);
        if (JSON.stringify(given.entries) !== JSON.stringify(entries())) return;
        tell(answer);
        if (edited && answer.problems.length === 0) save(given.entries);
      } catch (error) {
        if (error.name !== "AbortError") failed(error);
      }
    }

    function tell(answer) {
      const open = result.querySelector("details.figure-data")?.open;
      const working = result.querySelector("details.working")?.open;
      result.innerHTML = answer.html;
      const data = result.querySelector("details.figure-data");
      if (data && open) data.open = true;
      const steps = result.querySelector("details.working");
      if (steps && working !== undefined) steps.open = working;
      result.classList.remove("stale");
      result.dispatchEvent(new Event("answer", { bubbles: true }));
      for (const slider of form.querySelectorAll("[data-slider]")) {
        const twin = form.elements[slider.dataset.slider];
        if ((unitOf(twin)?.value ?? "") === slider.dataset.unit) slider.value = twin.value;
      }
      if (answer.problems.length === 0) clearProblems();
      offerChoices(answer.problems);
      clearTimeout(speaking);
      speaking = setTimeout(() => (part("status").textContent = answer.spoken), PAUSE);
    }

    function failed(error) {
      result.classList.remove("stale");
      const line = document.createElement("p");
      line.className = "no-result";
      line.textContent = `— ${error.message}. Reload the page to try again or to see the example.`;
      result.replaceChildren(line);
    }

    /** An entry with two meanings gets a button for each. */
    function offerChoices(problems) {
      const hint = part("hint");
      const asking = problems.find((problem) => problem.choices.length > 0);
      hint.hidden = !asking;
      hint.replaceChildren();
      if (!asking) return;
      hint.append(`${asking.message}: `);
      for (const choice of asking.choices) {
        const field = form.elements[asking.field];
        if (field instanceof HTMLInputElement) hint.append(button(choice, () => take(field, choice)), " ");
      }
    }

    function take(field, text) {
      field.value = text;
      forget(field);
      edited = true;
      field.focus();
      compute();
    }

    /* ---- problems are shown in red only when an action needs a result ---- */

    function showProblems(problems) {
      clearProblems();
      const box = part("problems");
      const list = document.createElement("ul");
      for (const problem of problems) {
        const item = document.createElement("li");
        const field = form.elements[problem.field];
        const target = field?.id ?? form.querySelector(`[data-table="${CSS.escape(problem.field)}"]`)?.id;
        if (target) {
          const link = document.createElement("a");
          link.href = `#${target}`;
          link.textContent = problem.message;
          link.addEventListener("click", (event) => {
            event.preventDefault();
            (field ?? document.getElementById(target).querySelector("input, select")).focus();
          });
          item.append(link);
          const beside = document.getElementById(`${target}-problem`);
          beside.textContent = problem.message;
          beside.hidden = false;
          field?.setAttribute?.("aria-invalid", "true");
          field?.setAttribute?.("aria-errormessage", beside.id);
        } else {
          item.textContent = problem.message;
        }
        list.append(item);
      }
      const head = document.createElement("p");
      head.textContent = "There is a problem";
      box.replaceChildren(head, list);
      box.hidden = false;
      if (!document.title.startsWith("Error: ")) document.title = `Error: ${document.title}`;
      box.focus();
    }

    function clearProblems() {
      part("problems").hidden = true;
      document.title = document.title.replace(/^Error: /, "");
      for (const line of form.querySelectorAll(".field-problem")) line.hidden = true;
      for (const field of form.querySelectorAll("[aria-invalid]")) {
        field.removeAttribute("aria-invalid");
        field.removeAttribute("aria-errormessage");
      }
    }

    /* ---- actions ---- */

    async function onClick(event) {
      const pressed = event.target.closest("button");
      if (!pressed) return;
      if (pressed.matches(".add-row")) addRow(pressed.closest("[data-table]"));
      else if (pressed.matches(".remove-row")) removeRow(pressed);
      else if (pressed.dataset.copy) await copyAs(pressed);
      else if (pressed.dataset.save) await saveFigure(pressed.dataset.save);
      else return;
    }

    function addRow(table) {
      const fresh = newRow(table);
      table.querySelector("tbody").append(fresh);
      fresh.querySelector("input, select").focus();
      edited = true;
      compute();
    }

    function removeRow(pressed) {
      const row = pressed.closest("tr");
      const table = pressed.closest("[data-table]");
      (row.nextElementSibling ?? row.previousElementSibling ?? table).querySelector?.("button")?.focus();
      row.remove();
      edited = true;
      compute();
    }

    async function copyAs(pressed) {
      try {
        const given = { name, entries: entries() };
        const answer = await asked("form.answer.answer", given);
        if (answer.problems.length > 0) return showProblems(answer.problems);
        const address = location.href.split("#")[0];
        const written = await asked("form.copying.copies", { ...given, address });
        const text = pressed.dataset.copy === "link" ? `${address}#${short(answer.link)}` : written[pressed.dataset.copy];
        await toClipboard(text.replaceAll(written.link, `${address}#${short(answer.link)}`));
        flash(pressed, "copied");
      } catch (error) {
        failed(error);
      }
    }

    /** Alone on its page a form needs no prefix in its links. */
    function short(link) {
      const alone = document.querySelectorAll("form.calculator").length === 1;
      return alone ? link.replaceAll(new RegExp(`(^|&)${form.dataset.name}\\.`, "g"), "$1") : link;
    }

    async function saveFigure(kind) {
      const files = await asked("form.answer.figure_files", { name, entries: entries() });
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([files[kind]], { type: kind === "svg" ? "image/svg+xml" : "text/csv" }));
      link.download = `${form.dataset.name}.${kind}`;
      link.click();
      URL.revokeObjectURL(link.href);
    }

    /* ---- what is kept in this browser, and what came with a link ---- */

    function save(values) {
      safely((text) => localStorage.setItem(`handbook ${name}`, text), JSON.stringify(values));
    }

    function saved() {
      return safely(JSON.parse, safely((key) => localStorage.getItem(key), `handbook ${name}`) || "null");
    }

    function offerSaved() {
      notice("", button("Bring back my last numbers", () => bringBack()));
    }

    function bringBack() {
      fill(saved());
      notice();
      compute();
    }

    function notice(text = "", ...buttons) {
      form.querySelector(".calculator-notice")?.remove();
      if (!text && buttons.length === 0) return;
      const line = document.createElement("p");
      line.className = "calculator-notice";
      line.append(text, " ", ...buttons);
      part("title").after(line);
    }

    form.api.open = async (fragment) => {
      try {
        const values = await asked("form.calculation.entries_of_link", { name, fragment });
        fill({ ...example.entries, ...values });
        edited = false;
        const mine = saved() ? [button("Back to mine", () => bringBack())] : [];
        notice("Values from a link. What you saved is unchanged.", ...mine);
        const answer = await asked("form.answer.answer", { name, entries: { ...example.entries, ...values }, digits: 4 });
        tell(answer);
        if (answer.problems.length > 0) showProblems(answer.problems);
      } catch (error) {
        failed(error);
      }
    };
  }

  /* ---- small things ---- */

  function joined(text, unit) {
    return unit ? `${text}_${unit}` : text;
  }

  function isUnit(field) {
    return field.matches(".entry select:not([name]), thead select");
  }

  function unitsOf(table) {
    return [...table.querySelectorAll("thead th")].map((head) => head.querySelector("select"));
  }

  function unitOf(field) {
    return field.closest(".entry")?.querySelector("select:not([name])");
  }

  function words(unit) {
    const place = unit.closest(".field")?.querySelector(".words");
    if (place) place.textContent = unit.selectedOptions[0].dataset.words;
  }

  /** What is in the field now is what the reader typed. */
  function forget(field, unit = unitOf(field)) {
    delete field.dataset.typed;
    delete field.dataset.typedUnit;
    if (unit) unit.dataset.last = unit.value;
  }

  /** Put an entry such as 395_rpm into a field and its unit list. */
  function place(field, unit, text, keepUnit = false) {
    const split = text.lastIndexOf("_");
    const key = split >= 0 ? text.slice(split + 1) : "";
    const known = unit && [...unit.options].some((option) => option.value === key);
    if (known && !(keepUnit && unit.value !== key)) {
      unit.value = key;
      field.value = text.slice(0, split);
      words(unit);
    } else {
      field.value = unit ? text.replace("_", " ") : text;
    }
    forget(field, unit);
  }

  function newRow(table) {
    return table.querySelector("template").content.firstElementChild.cloneNode(true);
  }

  function button(text, action) {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", action);
    return made;
  }

  async function asked(call, given, key) {
    const answer = await engine.ask({ call, arguments: given, key });
    if (answer.error) throw new Error(answer.error.message);
    return answer.value;
  }

  async function toClipboard(text) {
    try {
      await navigator.clipboard.writeText(text);
    } catch {
      const area = document.createElement("textarea");
      area.value = text;
      document.body.append(area);
      area.select();
      document.execCommand("copy");
      area.remove();
    }
  }

  function flash(pressed, word) {
    pressed.dataset.label ??= pressed.textContent;
    pressed.textContent = word;
    setTimeout(() => (pressed.textContent = pressed.dataset.label), 1500);
  }

  function safely(action, value) {
    try {
      return action(value);
    } catch {
      return null;
    }
  }

  /** Give the numbers in the address to the form they are for. */
  function openLink() {
    const fragment = location.hash.slice(1);
    if (!fragment.includes("=")) return;
    const forms = [...document.querySelectorAll("form.calculator")];
    const keys = [...new URLSearchParams(fragment).keys()];
    const prefixed = forms.filter((form) => keys.some((key) => key.startsWith(`${form.dataset.name}.`)));
    const named = forms.find((form) => keys.some((key) => form.api.names().includes(key)));
    const meant = prefixed.length > 0 ? prefixed : [named ?? forms[0]].filter(Boolean);
    for (const form of meant) form.api.open(fragment);
  }
})();
