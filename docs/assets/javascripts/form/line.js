/* One line of the result at the lower edge of a narrow screen, while the reader is at a field of
 * the form and the result itself is out of view.  Style sheets hide it where the result stands
 * beside the fields.  A screen reader is told the result by the form. */
(() => {
  "use strict";

  const HEADER = 48; // px that the head of the page covers
  const screen = globalThis.visualViewport;
  const lines = [...document.querySelectorAll("form.calculator")].map(lineOf);

  function lineOf(form) {
    const line = form.querySelector(".calculator-line");
    const result = form.querySelector(".calculator-result");
    const progress = form.querySelector(".calculator-progress");
    const fields = form.querySelector(".calculator-fields");
    const watch = new MutationObserver(() => update());
    watch.observe(result, { childList: true, attributeFilter: ["class"] });
    watch.observe(progress, { childList: true });
    for (const event of ["focusin", "focusout"]) form.addEventListener(event, () => setTimeout(update));

    /** Show the line or hide it; the field under it comes out, unless the reader scrolls away. */
    function update(scrolls = false) {
      const hidden = !fields.contains(document.activeElement) || isInView(result);
      line.hidden = hidden;
      if (hidden || line.getClientRects().length === 0) return; // beside the result it is not shown
      const isOld = result.matches(".stale, .pending");
      const [going] = progress.textContent.split(/(?<=[.…]) /); // its first sentence
      line.replaceChildren(...(isOld ? [`${going} `, ...before(result)] : short(result)));
      line.classList.toggle("stale", isOld);
      const covered = screen ? innerHeight - screen.height - screen.offsetTop : 0;
      line.style.setProperty("--keyboard", `${Math.max(0, covered)}px`);
      const { top, bottom } = document.activeElement.getBoundingClientRect();
      const over = bottom - line.getBoundingClientRect().top + 4;
      if (over > 0 && top < innerHeight && !scrolls) scrollBy({ top: over, behavior: "instant" });
    }

    return update;
  }

  /** Whether the first line of a result can be seen. */
  function isInView(result) {
    const first = result.querySelector(".no-result, .verdict, table.results tr, figure, table");
    if (!first) return true;
    const { top, height } = first.getBoundingClientRect();
    const bottom = top + Math.min(height, 80);
    return top >= HEADER && bottom <= (screen ? screen.height + screen.offsetTop : innerHeight);
  }

  /** Return the result that stands there, said to be that of the entries before. */
  function before(result) {
    return result.matches(".stale") ? ["(before: ", ...short(result), ")"] : [];
  }

  /** Return the first output with its unit, the verdict where there is no number, or why not. */
  function short(result) {
    const none = result.querySelector(".no-result");
    if (none) return [`no result: ${none.textContent.replace(/^— /, "")}`];
    const row = result.querySelector("table.results tr");
    if (!row) return [result.querySelector(".verdict, .figure-title, caption")?.textContent ?? ""];
    const value = document.createElement("b");
    value.textContent = row.querySelector(".number").textContent;
    const unit = row.querySelector(".unit option:checked") ?? row.querySelector(".unit");
    return [`${row.querySelector("th").textContent} `, value, ` ${unit.textContent}`];
  }

  let asked = 0;
  function updateAll({ type }) {
    asked ||= requestAnimationFrame(() => {
      asked = 0;
      for (const update of lines) update(type === "scroll");
    });
  }

  addEventListener("scroll", updateAll, { passive: true });
  for (const event of ["resize", "scroll"]) screen?.addEventListener(event, updateAll);
})();
