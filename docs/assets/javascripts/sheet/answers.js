/* The answers of a survey in the page: each folds, and is put in the place of an earlier one. */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  /** Show an answer {key, headline, given, warned, html} in a box. */
  function show(box, answer) {
    const made = document.createElement("details");
    made.className = "sheet-answer";
    made.classList.toggle("warned", Boolean(answer.warned));
    made.classList.toggle("lacking", !answer.given);
    made.innerHTML = answer.html;
    const name = made.querySelector("section > h2");
    const head = document.createElement("summary");
    const title = Object.assign(document.createElement("strong"), { textContent: name?.textContent ?? "" });
    head.append(title, ` ${answer.headline}`, answer.warned ? " (with warnings)" : "");
    name?.remove();
    for (const code of made.querySelectorAll("section > p > code")) linkForm(code);
    for (const wide of made.querySelectorAll(".wide")) wide.tabIndex = 0; // scrolls by keyboard
    made.prepend(head);
    made.dataset.key = answer.key;
    const old = box.querySelector(`[data-key="${CSS.escape(answer.key)}"]`);
    made.open = old?.open ?? false;
    if (old) old.replaceWith(made);
    else box.append(made);
  }

  /** The address of the form with the entries of an answer becomes a link to it. */
  function linkForm(code) {
    if (!/^\w+\/\w+\.html#/.test(code.textContent)) return;
    const made = document.createElement("a");
    made.href = code.textContent;
    made.textContent = "open it";
    code.replaceWith(made);
  }

  (globalThis.dataSheet ??= {}).answers = { show };
});
