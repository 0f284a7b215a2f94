/* What a reader does to the values of a data sheet: typing, choosing, rows of tables, Undo.
 *
 * `own` is the sheet, as sheet.js makes it.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const { state: states, view } = dataSheet;

  /** What is changed by the parts of a field, by their class: (value, text, field, system). */
  const CHANGES = {
    "sheet-entry": states.typed,
    "sheet-origin": (value, origin) => ({ ...value, origin }),
    "sheet-tolerance": (value, tolerance) => ({ ...value, tolerance }),
    "unit-list": states.unitChosen,
  };

  function of(own) {
    const { root, shape } = own;

    root.addEventListener("input", onInput);
    root.addEventListener("change", onChange);
    root.addEventListener("focusout", own.settle);
    root.addEventListener("keydown", onKey);
    return { changeRows };

    function onInput({ target }) {
      const { content } = own.state();
      if (target.matches("[name=title], [name=note]")) {
        return own.edit({ ...content, [target.name]: target.value }, target.name);
      }
      const [kind] = target.classList;
      if (!CHANGES[kind]) return;
      const place = view.placeOf(target);
      const field = shape[place.section].fields[place.name];
      const change = (value) => CHANGES[kind](value, target.value, field, own.system());
      own.edit(states.put(content, place, change), `${Object.values(place)} ${kind}`);
    }

    /** A field was left: that its unit moves into the list is a part of the same edit. */
    function onChange({ target }) {
      if (!target.matches(".sheet-entry")) return;
      const { content, place: edit } = own.state();
      const place = view.placeOf(target);
      const field = shape[place.section].fields[place.name];
      let moved = false;
      const next = states.put(content, place, (value) => {
        const after = states.left(value, field, own.system());
        moved = after !== value;
        return after;
      });
      if (moved) own.edit(next, edit);
    }

    function onKey(event) {
      if (!desk.isUndo(event) || own.state().past.length === 0) return;
      event.preventDefault();
      own.undo();
    }

    /** A button of a table was pressed: a row goes in, up, down or out. */
    function changeRows(pressed) {
      const { section, row } = view.placeOf(pressed);
      const { content } = own.state();
      const { do: act } = pressed.dataset;
      if (act === "add") {
        own.edit(states.rowAdded(content, section, shape[section]));
        const line = pressed.parentElement.querySelector(".sheet-line:last-child");
        line.open = true;
        line.querySelector(".sheet-entry").focus();
      } else if (act === "remove") {
        own.edit(states.rowRemoved(content, section, row));
        root.querySelector(`[data-section="${section}"] [data-do=add]`).focus();
      } else {
        own.edit(states.rowMoved(content, section, row, act === "raise" ? -1 : 1));
        pressed.focus();
      }
    }
  }

  dataSheet.edits = { of };
});
