/* The units of the whole handbook: the system that the reader chose, kept in this browser.
 *
 * Every list of systems, .system-list, chooses for all pages.  "units" is dispatched on the document
 * when another system was chosen, here or in another window.  What is kept is untrusted: a system
 * that the lists do not have counts as none.
 */
(globalThis.calculator ??= {}).units = (() => {
  "use strict";

  const PLACE = "handbook units";
  const lists = [...document.querySelectorAll(".system-list")];
  const systems = lists.length > 0 ? [...lists[0].options].map(({ value }) => value) : ["si"];
  let system = read();

  document.addEventListener("change", ({ target }) => {
    if (target.matches(".system-list")) choose(target.value);
  });
  addEventListener("storage", ({ key }) => [PLACE, null].includes(key) && readAgain());
  addEventListener("pageshow", ({ persisted }) => persisted && readAgain()); // by the way back
  tell();

  function readAgain() {
    system = read();
    tell();
  }

  function read() {
    try {
      const kept = localStorage.getItem(PLACE);
      return systems.includes(kept) ? kept : null;
    } catch {
      return null;
    }
  }

  function choose(chosen) {
    system = chosen;
    try {
      localStorage.setItem(PLACE, chosen);
    } catch {
      // Without storage the choice holds for this page.
    }
    tell();
  }

  function tell() {
    for (const list of lists) list.value = current();
    document.dispatchEvent(new Event("units"));
  }

  /** Return the system that holds; the first one where none was chosen. */
  function current() {
    return system ?? systems[0];
  }

  /** Return the system that the reader chose, or null. */
  function chosen() {
    return system;
  }

  return { systems, current, chosen };
})();
