/* Measured modes that come with the address of the page, as `#modes=` and JSON: what they would change
 * is shown, and they are put into the sheet when the reader says so.
 *
 * Anybody can write an address: Python checks it, and its texts are shown as text.
 *
 * `own` is the sheet, as sheet.js makes it.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const { state: states, view } = dataSheet;
  const BEGINS = "#modes=";
  const TOLERATED = ["frequency", "damping_ratio"];
  const KEY = "sheet modes";
  const PAUSE = 300; // ms after the last letter before what changes is told anew

  function of(own) {
    const box = own.root.querySelector(".sheet-modes");
    const part = (selector) => box.querySelector(selector);
    let offer = null; // as Python reads it, with the row of each mode where one is chosen
    let found = null; // what putting them in would give, and for which sheet and offer
    let waiting;

    addEventListener("hashchange", look);
    box.addEventListener("input", changed);
    box.addEventListener("keydown", keepHere);
    return { look, take, leave };

    /** Look whether the address offers modes. */
    async function look() {
      if (!location.hash.startsWith(BEGINS)) return;
      const text = decoded(location.hash.slice(BEGINS.length));
      const read = await own.asked("sheet.offered_modes.offer_read", { text }, KEY);
      if (!read) return;
      if (read.problem) {
        close();
        return own.trouble(`The modes in the address of this page cannot be read: ${read.problem}. The sheet is as it was.`);
      }
      offer = read.offer;
      for (const name of ["record", "method", "date", "section"]) part(`[name=${name}]`).value = offer[name];
      part("tbody").replaceChildren(...offer.modes.map(lineOf));
      box.hidden = false;
      await forecast();
      box.focus();
    }

    function decoded(text) {
      try {
        return decodeURIComponent(text);
      } catch {
        return "";
      }
    }

    function lineOf(mode, number) {
      const line = document.createElement("tr");
      const values = Object.entries(mode).filter(([, value]) => Array.isArray(value));
      const words = values.map(([name, [text]]) => `${labelOf(name)} ${text}`).join(", ");
      const fields = [
        field("name", mode.name, `Name of mode ${number + 1}`, 60),
        ...TOLERATED.map((name) => mode[name] && field(name, mode[name][1], `Tolerance of the ${labelOf(name)} of mode ${number + 1}`, 20)),
      ];
      const row = document.createElement("select");
      row.name = "row";
      row.setAttribute("aria-label", `Row for mode ${number + 1}`);
      line.append(...[fields[0], words, fields[1], fields[2], row].map(cell));
      return line;
    }

    function labelOf(name) {
      const { label } = own.shape.measured_modes.fields[name];
      return label[0].toLowerCase() + label.slice(1);
    }

    function field(name, value, label, maxLength) {
      const made = Object.assign(document.createElement("input"), { name, value, maxLength, spellcheck: false, autocomplete: "off" });
      made.setAttribute("aria-label", label);
      return made;
    }

    function cell(content) {
      const made = document.createElement("td");
      made.append(content ?? "");
      return made;
    }

    /** What is typed here is taken back by the browser, as in any field, and not by the sheet. */
    function keepHere(event) {
      if (desk.isUndo(event) || event.key === "Enter") event.stopPropagation();
    }

    /** The reader changed a text or chose a row or a table. */
    function changed({ target }) {
      for (const name of ["record", "method", "date"]) offer[name] = part(`[name=${name}]`).value;
      if (target.name === "section") {
        offer.section = target.value;
        for (const mode of offer.modes) delete mode.row;
      }
      const line = target.closest("tbody tr");
      const mode = line && offer.modes[[...line.parentElement.children].indexOf(line)];
      if (mode && target.name === "row") mode.row = Number(target.value);
      else if (mode && target.name === "name") mode.name = target.value;
      else if (mode) mode[target.name] = [mode[target.name][0], target.value.trim()];
      clearTimeout(waiting);
      waiting = setTimeout(forecast, PAUSE);
    }

    /** Show what the modes would change in the sheet as it stands. */
    async function forecast() {
      if (!offer) return;
      const asked = { sheet: own.held(), offer: structuredClone(offer) };
      const made = await own.asked("sheet.offered_modes.offer_taken", asked, KEY);
      if (!made || !offer) return;
      found = { ...made, asked };
      showRows(made.rows);
      part(".modes-problem").textContent = made.problems.map((problem) => `${problem}.`).join(" ");
      part(".modes-remark").textContent = made.remark;
      part("[data-do=takeModes]").setAttribute("aria-disabled", String(made.sheet === null));
      const changes = made.sheet ? [view.differenceTable(made.differences, "With these modes")] : [];
      part(".modes-changes").replaceChildren(...changes);
    }

    function showRows(rows) {
      const [name] = Object.keys(own.shape[offer.section].fields);
      const there = own.held().rows[offer.section];
      const words = there.map((row, place) => `in place of row ${place + 1}: ${row[name][0]}, ${row.frequency[0]}`);
      for (const [number, list] of [...box.querySelectorAll("[name=row]")].entries()) {
        list.replaceChildren(...["a new row", ...words].map((text, value) => new Option(text, value)));
        list.value = rows[number];
      }
    }

    /** Put the modes in; where what is shown is not what they would change now, show that first. */
    async function take() {
      if (!desk.same(found.asked, { sheet: own.held(), offer })) {
        await forecast();
        own.trouble("Something was changed meanwhile: look at what the modes change now, and press once more.");
        return;
      }
      const { content } = own.state();
      const { section, modes } = offer;
      own.replaced(found.asked.sheet, "before the modes came in");
      own.edit(own.loaded(found.sheet, states.unitsOf(content)));
      close();
      view.goTo(view.fieldAt(own.root, section));
      own.trouble(`${modes.length === 1 ? "One mode was" : `${modes.length} modes were`} put into the table. Undo brings the sheet before back.`);
    }

    function leave() {
      close();
      own.trouble("");
    }

    /** Forget the offer, in the address too, so that loading the page anew does not bring it back. */
    function close() {
      offer = found = null;
      box.hidden = true;
      history.replaceState(history.state, "", location.href.split("#")[0]);
    }
  }

  dataSheet.modes = { of };
});
