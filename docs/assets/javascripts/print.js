/* What is printed.  A page with forms prints the one that the reader was at last: inputs, result,
 * warnings, figure, formulas, when they hold, how they were checked, and sources; the working and the data of the figure where their box is
 * ticked, and the whole page where its button is pressed. */
(() => {
  "use strict";

  const { forms } = calculator;
  if (forms.length === 0) return;
  const root = document.documentElement;
  const LONGEST = 700; // characters of a section that is printed and not only named
  let last = forms.find((one) => one.state().origin === "link") ?? forms[0];

  for (const one of forms) {
    const { form } = one;
    for (const event of ["focusin", "input"]) form.addEventListener(event, () => (last = one));
    form.addEventListener("click", async ({ target }) => {
      const { print } = target.dataset;
      if (!print) return;
      if (print === "page") await Promise.all(forms.map((other) => other.caughtUp()));
      root.classList.toggle("print-form", print === "form");
      globalThis.print();
    });
  }
  addEventListener("beforeprint", prepare);
  addEventListener("afterprint", () => root.classList.add("print-form"));
  root.classList.add("print-form");
  prepare();

  function prepare() {
    for (const kept of document.querySelectorAll(".print-kept")) kept.classList.remove("print-kept");
    for (const part of wanted(last.form)) part.classList.add("print-kept");
    root.classList.toggle("print-working", last.form.querySelector("[data-working]").checked);
    forms.forEach(sayWhence);
    forms.forEach(({ form }) => form.querySelectorAll("th select, td select, .entry > select[name]").forEach(sayChoice));
  }

  /** Return what is printed of the page with a form: title, caution, formulas and sources. */
  function wanted(form) {
    const article = form.closest("article");
    const cautions = article.querySelectorAll(":scope > :is(h1, .admonition.danger, .admonition.warning)");
    const formulas = section("formula").filter((part) => part.matches("h2, .equation"));
    const holds = section(document.getElementById("holds-when") ? "holds-when" : "limits-of-validity");
    return [...cautions, form, ...formulas, ...brief(holds), ...brief(section("checked-against")), ...section("sources")];
  }

  /** Return a section, or of a long one its heading with a line that says where it stands. */
  function brief([heading, ...rest]) {
    if (!heading) return [];
    const length = rest.reduce((sum, part) => sum + part.textContent.length, 0);
    const isLong = (part) => part.matches("h3") || part.querySelector("table, svg:not(.katex svg)"); // a root is an svg
    const isShort = length <= LONGEST && !rest.some(isLong);
    if (isShort) return [heading, ...rest];
    if (!rest[0]?.matches(".print-reference")) {
      const line = document.createElement("p");
      line.className = "print-reference printed-only";
      heading.after(line);
    }
    heading.nextElementSibling.textContent = `On the page: ${location.href.split("#")[0]}#${heading.id}`;
    return [heading, heading.nextElementSibling];
  }

  /** Return a heading with what stands under it. */
  function section(id) {
    const found = [];
    for (let part = document.getElementById(id); part; part = part.nextElementSibling) {
      if (found.length > 0 && part.matches("h2")) break;
      found.push(part);
    }
    return found;
  }

  /** Chosen units and words are printed as text: a list is lost from a repeated table head, and cut where it is long. */
  function sayChoice(list) {
    list.parentElement.dataset.chosen = list.selectedOptions[0]?.text ?? "";
  }

  /** The link under a printed result holds its numbers; on a server it is a whole address. */
  function sayWhence({ form, state, fragment }) {
    const place = form.querySelector("[data-printed=link]");
    if (!place) return;
    const page = place.textContent.split("#")[0];
    const address = location.protocol.startsWith("http") ? location.href.split("#")[0] : page;
    place.textContent = `${address}#${state().origin === "example" ? form.id : fragment()}`;
  }
})();
