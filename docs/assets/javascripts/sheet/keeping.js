/* How the data sheet is kept in the browser: after each change, beside other tabs, and until the
 * reader deletes it.  A line at the top always says whether it is kept, and where.
 *
 * `own` is the sheet, as sheet.js makes it.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const { state: states, store } = dataSheet;

  const WHERE = `in the local storage of this browser, under “${store.PLACE}”, for this address alone`;
  const LINES = {
    none: `Nothing is kept yet. What you enter is kept ${WHERE}; nothing is sent anywhere.`,
    kept: `Kept ${WHERE}; nothing is sent anywhere. A browser may clear its storage: save the sheet as a file.`,
    lost: `What was kept had been cleared; the sheet as it stands here is kept again, ${WHERE}.`,
    cleared: "What was kept has been cleared, in another tab or by the browser. The sheet here is kept again with the next change; or save it as a file.",
    off: "NOT kept: the storage of this browser is full or switched off. Save the sheet as a file before you close this page.",
    gone: "All that the handbook kept in this browser is deleted.",
    stays: "Not all could be deleted: the browser refused. Clear its data for this address by its own settings.",
  };
  const ELSEWHERE = "another tab"; // the place of the edits that are made there
  const OTHER_TAB = "Another tab has changed the sheet, and this is its sheet now. Undo brings back the one that stood here.";

  function of(own) {
    let isKept = true;
    let wasLost = false; // what was kept had been cleared during this visit

    addEventListener("beforeunload", (event) => !isKept && event.preventDefault());
    store.watch(fromOtherTab);
    return { start, keep, clear };

    /** Bring back what was kept; before it there is nothing to go back to. */
    function start() {
      const there = store.read();
      if (there) own.become({ ...own.state(), content: own.loaded(there.sheet, there.units) }, { keep: false });
      tell(there === undefined ? "off" : there ? "kept" : "none");
    }

    /** Keep the sheet; what another tab had put there unseen is one of the sheets before. */
    function keep() {
      const { kept, other, lost } = store.write(own.held(), states.unitsOf(own.state().content));
      if (other && !desk.same(other.sheet, own.held())) own.remember(own.loaded(other.sheet, other.units));
      wasLost ||= lost;
      tell(kept ? (wasLost ? "lost" : "kept") : "off");
    }

    function tell(how) {
      isKept = how !== "off";
      const line = own.root.querySelector(".sheet-kept");
      line.textContent = LINES[how];
      line.classList.toggle("warning", !isKept || how === "stays");
    }

    /** Another tab has changed the sheet: show its sheet; Undo brings the one of this tab back.
     * Where it has only chosen other units to see, there is nothing to undo. */
    function fromOtherTab(there) {
      if (!there) {
        wasLost = true;
        return tell("cleared");
      }
      const content = own.loaded(there.sheet, there.units);
      if (desk.same(there.sheet, own.held())) {
        const before = own.state();
        if (!desk.same(there.units, states.unitsOf(before.content))) own.become({ ...before, content }, { keep: false });
        return;
      }
      own.become(states.edited(own.state(), content, ELSEWHERE), { keep: false });
      own.trouble(OTHER_TAB);
    }

    /** Delete all that is kept, once the reader has said so twice; it cannot be undone. */
    function clear(pressed) {
      if (!desk.isSure(pressed, "Delete all my data of the handbook for good")) return;
      own.restart();
      wasLost = false;
      tell(store.clear() ? "gone" : "stays");
    }
  }

  dataSheet.keeping = { ELSEWHERE, of };
});
