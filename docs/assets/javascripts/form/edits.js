/* What a reader does to the entries of a form: typing, choosing units, rows of tables, Paste, Undo.
 *
 * `own` is the form: state(), become(next), settle() and undo().
 */
(globalThis.calculator ??= {}).edits = (() => {
  "use strict";

  const { state: states, paste, fields, desk } = calculator;

  function of(own) {
    const { form, shape, part } = own;

    form.addEventListener("input", onInput);
    form.addEventListener("change", onChange);
    form.addEventListener("focusout", own.settle);
    form.addEventListener("keydown", onKey);
    form.addEventListener("paste", onPaste);
    return { take, changeRows };

    function onInput({ target }) {
      if (!target.closest(".calculator-fields") || target.matches(".unit-list")) return;
      const place = fields.placeOf(target);
      own.become(states.typed(own.state(), place, target.value, unitsAt(place)));
    }

    /** Return the units that an entry can be in; none for a word. */
    function unitsAt({ key, column }) {
      const field = shape.fields[key];
      return (field.columns?.[column] ?? field).units;
    }

    function onChange({ target }) {
      if (target.matches("[data-digits]")) {
        return own.become(states.viewed(own.state(), { digits: Number(target.value) }));
      }
      if (target.matches(".result-unit")) return chooseResultUnit(target);
      if (!target.closest(".calculator-fields")) return;
      const place = fields.placeOf(target);
      const those = unitsAt(place);
      if (target.matches(".unit-list")) own.become(states.unitChosen(own.state(), place, target.value, those));
      else if (those && !target.dataset.slider) own.become(states.left(own.state(), place, those));
    }

    function chooseResultUnit({ value, dataset }) {
      own.become(states.resultUnitChosen(own.state(), dataset.result, value === dataset.start ? null : value));
    }

    function take(field, text) {
      const place = fields.placeOf(field);
      own.become(states.typed(states.settled(own.state()), place, text, unitsAt(place)));
      field.focus();
    }

    /** A button of a table was pressed: a row goes in, out, up or down. */
    function changeRows(pressed) {
      if (pressed.matches(".add-row")) addRow(pressed.closest("[data-table]").dataset.table);
      else if (pressed.matches(".remove-row")) removeRow(fields.placeOf(pressed));
      else if (pressed.matches(".raise-row, .lower-row")) moveRow(pressed, fields.placeOf(pressed));
    }

    function addRow(key) {
      own.become(states.rowAdded(own.state(), key, shape.fields[key]));
      fields.fieldAt(form, { key, row: own.state().values[key].rows.at(-1).id, column: 0 }).focus();
    }

    function removeRow({ key, row }) {
      const number = own.state().values[key].rows.findIndex(({ id }) => id === row);
      own.become(states.rowRemoved(own.state(), key, row));
      const next = Math.min(number, own.state().values[key].rows.length - 1);
      fields.fieldAt(form, { key, number: next, column: 0 }).focus();
    }

    /** The button keeps the focus, and with it the row that was moved. */
    function moveRow(pressed, { key, row }) {
      own.become(states.rowMoved(own.state(), key, row, pressed.matches(".raise-row") ? -1 : 1));
      pressed.focus();
      const { rows } = own.state().values[key];
      const number = 1 + rows.findIndex(({ id }) => id === row);
      part("status").textContent = `Now row ${number} of ${rows.length}`;
    }

    function onKey(event) {
      if (desk.isUndo(event) && own.state().past.length > 0) {
        event.preventDefault();
        own.undo();
        if (desk.isIdle()) form.querySelector(".undo").focus();
      } else if (event.target.matches("select:not(.unit-list, .result-unit)")) desk.chooseByTyping(event);
    }

    function onPaste(event) {
      if (!event.target.closest("[data-table] tbody")) return;
      const place = fields.placeOf(event.target);
      const text = event.clipboardData.getData("text/plain");
      const next = paste.pasted(own.state(), place, shape.fields[place.key], text);
      if (!next) return;
      event.preventDefault();
      own.become(next);
      event.target.scrollIntoView({ block: "nearest", behavior: "instant" }); // clear of what it says
    }
  }

  return { of };
})();
