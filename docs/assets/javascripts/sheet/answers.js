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
    const verdict = document.createElement("span");
    verdict.textContent = `${answer.headline}${answer.warned ? " (with warnings)" : ""}`;
    head.append(title, " ", verdict);
    name?.remove();
    tidy(made);
    made.prepend(head);
    if (answer.given) made.append(tools());
    made.dataset.key = answer.key;
    const old = box.querySelector(`[data-key="${CSS.escape(answer.key)}"]`);
    made.open = old?.open ?? false;
    if (old) old.replaceWith(made);
    else box.append(made);
  }

  /** Make of HTML from Python what only a page has: links to forms, tables that scroll by keyboard. */
  function tidy(around) {
    for (const code of around.querySelectorAll("p > code")) linkForm(code);
    for (const wide of around.querySelectorAll(".wide")) wide.tabIndex = 0;
  }

  /** Return the buttons that take one answer away. */
  function tools() {
    const bar = Object.assign(document.createElement("p"), { className: "answer-tools" });
    const ways = { text: "Copy for a review", markdown: "Copy as Markdown", csv: "Save as CSV" };
    for (const [kind, words] of Object.entries(ways)) {
      const button = Object.assign(document.createElement("button"), { type: "button", textContent: words });
      Object.assign(button.dataset, { do: "quote", kind, current: "" });
      bar.append(button, " ");
    }
    return bar;
  }

  /** The address of the form with the entries of an answer becomes a link to it. */
  function linkForm(code) {
    if (!/^\w+\/\w+\.html#/.test(code.textContent)) return;
    const made = document.createElement("a");
    made.href = code.textContent;
    made.textContent = "open it";
    code.replaceWith(made);
  }

  (globalThis.dataSheet ??= {}).answers = { show, tidy };
});
