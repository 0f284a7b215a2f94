/* Problems: a sentence beside each field that is meant, once the reader has left it, and after an
 * action such as a copy a summary at the top of the form as well. */
(globalThis.calculator ??= {}).problems = (() => {
  "use strict";

  const { fields, view } = calculator;
  const ERROR = "Error: "; // before the title of the page, while a form shows its problems

  /** Show problems {message, field, cell, also} and give the summary the focus if it may have it. */
  function show(form, problems, focus) {
    clear(form);
    const box = form.querySelector(".calculator-problems");
    const head = document.createElement("p");
    head.textContent = "There is a problem";
    const list = document.createElement("ul");
    list.append(...problems.map((problem) => item(form, problem)));
    box.replaceChildren(head, list);
    box.hidden = false;
    if (!document.title.startsWith(ERROR)) document.title = ERROR + document.title;
    if (focus) box.focus();
  }

  function item(form, problem) {
    const { message, cell } = problem;
    const line = document.createElement("li");
    const meant = places(form, problem);
    if (meant.length === 0) {
      line.textContent = message;
      return line;
    }
    for (const { key, target } of meant) tell(form, target, key, message);
    const [{ key }] = meant;
    const link = document.createElement("a");
    link.href = `#${form.id}-${key}`;
    link.textContent = message;
    link.addEventListener("click", (event) => {
      event.preventDefault();
      fieldOf(form, key, cell).focus();
    });
    line.append(link);
    return line;
  }

  function tell(form, target, field, message) {
    const beside = document.getElementById(`${form.id}-${field}-problem`);
    beside.textContent = message;
    beside.hidden = false;
    if (target.matches("input, select")) target.setAttribute("aria-invalid", "true");
  }

  /** Mark the fields that problems name, but not the one in which the reader is. */
  function mark(form, problems) {
    if (!form.querySelector(".calculator-problems").hidden) return; // the summary marks its own
    unmark(form);
    for (const problem of problems) {
      for (const { key, target } of places(form, problem)) {
        if (target !== document.activeElement) tell(form, target, key, problem.message);
      }
    }
  }

  function unmark(form) {
    for (const line of form.querySelectorAll(".field-problem")) line.hidden = true;
    for (const field of form.querySelectorAll("[aria-invalid]")) field.removeAttribute("aria-invalid");
  }

  /** Return every field that a problem is about, with its key. */
  function places(form, { field, cell, also = [] }) {
    const meant = field ? [field, ...also].map((key) => ({ key, target: fieldOf(form, key, cell) })) : [];
    return meant.filter(({ target }) => target);
  }

  function fieldOf(form, field, cell) {
    const place = cell ? { key: field, number: cell[0], column: cell[1] } : { key: field };
    return fields.fieldAt(form, place);
  }

  function clear(form) {
    unmark(form);
    const box = form.querySelector(".calculator-problems");
    if (box.hidden) return;
    if (box.contains(document.activeElement)) form.querySelector(".calculator-title").focus();
    box.hidden = true;
    if (!document.querySelector(".calculator-problems:not([hidden])")) {
      document.title = document.title.slice(document.title.startsWith(ERROR) ? ERROR.length : 0);
    }
  }

  /** Offer a button for each meaning of an entry that has several. */
  function offerChoices(form, problems, take) {
    const hint = form.querySelector(".calculator-hint");
    const asking = problems.find(({ choices, field }) => choices?.length > 0 && field);
    hint.hidden = !asking;
    hint.replaceChildren();
    if (!asking) return;
    const field = fieldOf(form, asking.field, asking.cell);
    hint.append(`${asking.message}: `);
    for (const choice of asking.choices) {
      hint.append(view.button(choice, () => take(field, choice)), " ");
    }
  }

  return { show, mark, clear, offerChoices };
})();
