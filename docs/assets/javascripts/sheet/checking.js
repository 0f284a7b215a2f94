/* What a data sheet is told while it is filled, once the reader pauses: beside each field what is
 * wrong with it, and what the answers of the survey still need.
 *
 * `own` is the sheet, as sheet.js makes it.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { view, needs } = dataSheet;
  const PAUSE = 500; // ms after the last change before the sheet is looked at
  const KEY = "sheet check";

  function of(own) {
    const { root } = own;
    let waiting;

    document.addEventListener("engine:progress", () => engine.state === "ready" && soon());
    return { soon };

    function soon() {
      clearTimeout(waiting);
      waiting = setTimeout(check, PAUSE);
    }

    async function check() {
      if (engine.state !== "ready") return;
      if (own.isBusy()) return soon();
      const { revision } = own.state();
      const isCurrent = () => revision === own.state().revision;
      const sheet = own.held();
      const made = await own.asked("sheet.exchange.file_made", { sheet }, KEY);
      if (!made || !isCurrent()) return;
      const isListed = !root.querySelector(".sheet-problems").hidden;
      if (!isListed) view.showProblems(root, made.problems, "");
      if (made.problems.length > 0) return;
      const found = await own.asked("survey.needs.needs", { sheet }, KEY);
      if (found && isCurrent()) needs.show(root, found);
    }
  }

  dataSheet.checking = { of };
});
