/* What a reader does to the values of a data sheet: typing, choosing, rows of tables, Undo; and the
 * way from one value to the next.
 *
 * `own` is the sheet, as sheet.js makes it.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const { state: states, view } = dataSheet;

  const STOPS = ".sheet-field:not([hidden]) .sheet-entry, [data-do=add], [data-do=survey]";

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
    return { changeRows, goOn };

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
      if (target.matches(".sheet-origins")) return sayOrigin(target);
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

    /** Say of all values of a section that say nothing about it where they came from. */
    function sayOrigin(list) {
      const { section } = list.closest(".sheet-section").dataset;
      own.edit(states.originSaid(own.state().content, section, shape[section], list.value));
      list.value = "";
    }

    function onKey(event) {
      const { target, key } = event;
      if (desk.isUndo(event) && own.state().past.length > 0) {
        event.preventDefault();
        own.undo();
      } else if (key === "Enter" && target.matches("input:not([type=file]), .sheet-field select")) {
        event.preventDefault();
        goOn(target);
      }
    }

    /** Go on to the next value, or in a table to the button that adds a row; after all to the survey. */
    function goOn(from) {
      const stops = [...root.querySelectorAll(STOPS)];
      const isAfter = (stop) => from.compareDocumentPosition(stop) & Node.DOCUMENT_POSITION_FOLLOWING;
      view.goTo(stops.find(isAfter));
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
