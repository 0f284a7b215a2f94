/* Problems: a sentence beside each field that is meant, once the reader has left it, and after an
 * action such as a copy a summary at the top of the form as well. */
(globalThis.calculator ??= {}).problems = (() => {
  "use strict";

  const { fields, view } = calculator;
  const ERROR = "Error: "; // before the title of the page, while a form shows its problems

  /** Show problems {message, field, cells, also} and give the summary the focus if it may have it. */
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
    const { message } = problem;
    const line = document.createElement("li");
    const meant = places(form, problem);
    if (meant.length === 0) {
      line.textContent = message;
      return line;
    }
    for (const place of meant) tell(form, place, message);
    const [{ key }] = meant;
    const link = document.createElement("a");
    link.href = `#${form.id}-${key}`;
    link.textContent = message;
    link.addEventListener("click", (event) => {
      event.preventDefault();
      places(form, problem)[0].target.focus();
    });
    line.append(link);
    return line;
  }

  function tell(form, { key, target }, message) {
    const beside = document.getElementById(`${form.id}-${key}-problem`);
    beside.textContent = message;
    beside.hidden = !message;
    if (target.matches("input, select")) target.setAttribute("aria-invalid", "true");
  }

  /** Mark the fields that problems name, but neither mark nor name the one in which the reader types.
   *
   * A summary that stands follows what is mended, unless the reader is in it. */
  function mark(form, problems, typing) {
    const box = form.querySelector(".calculator-problems");
    if (!box.hidden) return box.contains(document.activeElement) || show(form, problems);
    unmark(form);
    const isAt = ({ target }) => target === typing;
    for (const problem of problems) {
      const meant = places(form, problem);
      const said = (place) => (isAt(meant[0]) && place.key === meant[0].key ? "" : problem.message);
      for (const place of meant) if (!isAt(place)) tell(form, place, said(place));
    }
  }

  function unmark(form) {
    for (const line of form.querySelectorAll(".field-problem")) line.hidden = true;
    for (const field of form.querySelectorAll("[aria-invalid]")) field.removeAttribute("aria-invalid");
  }

  /** Return every field that a problem is about, with its key. */
  function places(form, { field, cells = [], also = [] }) {
    if (!field) return [];
    const inTable = cells.map(([number, column]) => ({ key: field, number, column }));
    const meant = [...(cells.length > 0 ? inTable : [{ key: field }]), ...also.map((key) => ({ key }))];
    return meant
      .map((place) => ({ key: place.key, target: fields.fieldAt(form, place) }))
      .filter(({ target }) => target);
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
    const [{ target: field }] = places(form, asking);
    hint.append(`${asking.message}: `);
    for (const choice of asking.choices) {
      hint.append(view.button(choice, () => take(field, choice)), " ");
    }
  }

  return { show, mark, clear, offerChoices };
})();
