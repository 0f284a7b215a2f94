/* Review: what differs from the sheet that stood here before another was opened, values and results.
 * Both surveys are asked question by question, so that it shows how far it is and can be stopped.
 *
 * `own` is the sheet, as sheet.js makes it; `files` gives its text, `survey` its revision.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const { answers } = dataSheet;

  function of(own, files, survey) {
    const { root } = own;
    const box = root.querySelector(".sheet-review");
    let before = null; // the sheet that stood here, as Python holds it
    let from = ""; // the file that it was from, in words; empty where none is known
    let run = none();

    root.addEventListener("survey:told", tell);
    document.addEventListener("keydown", ({ key }) => key === "Escape" && run.running && stop());
    return { replaced, compute, stop, save, clear };

    function none() {
      return { revision: null, running: false, stopped: false, found: null, line: "" };
    }

    /** Another sheet takes the place of this one, which was from a file, in words, if one is known. */
    function replaced(sheet, origin) {
      const isEmpty = Object.values(sheet.values).every(([text]) => text === "unknown") && Object.values(sheet.rows).flat().length === 0;
      if (isEmpty) return;
      clear();
      before = sheet;
      from = origin;
    }

    function clear() {
      if (run.running) stop();
      run = none();
      before = null;
      box.replaceChildren();
    }

    async function compute() {
      const mine = { ...none(), revision: survey.revision(), running: true };
      run = mine;
      box.replaceChildren();
      say(mine, "Working …");
      try {
        const texts = await both();
        if (!texts) return;
        const asked = [];
        for (const text of texts) {
          const questions = await desk.asked("survey.asking.questions", { text }, "review");
          asked.push(...questions.map((question) => ({ ...question, text })));
        }
        for (const [number, { text, key, title }] of asked.entries()) {
          if (!goesOn(mine)) return;
          const which = text === texts[0] ? "the sheet before" : "the sheet here";
          say(mine, `${number + 1} of ${asked.length}, ${which}: ${title} …`);
          await desk.asked("survey.asking.answered", { text, key, tolerances: false }, "review");
        }
        const found = await desk.asked("survey.asking.reviewed", { before: texts[0], after: texts[1] }, "review");
        if (goesOn(mine)) show(mine, found);
      } catch (error) {
        own.failed(error);
      } finally {
        mine.running = false;
        tell();
      }
    }

    /** Return the texts of the files of both sheets, or nothing where one has problems. */
    async function both() {
      const made = await own.asked("sheet.exchange.file_made", { sheet: before }, "review");
      if (made && made.problems.length > 0) {
        const { field, message } = made.problems[0];
        own.trouble(`The sheet before has problems and cannot be compared: ${field}: ${message}`);
      }
      const text = made?.problems.length === 0 ? await files.text("There is no comparison yet. Put this right first:") : null;
      return text === null ? null : [made.text, text];
    }

    function show(mine, found) {
      mine.found = found;
      box.innerHTML = found.html;
      answers.tidy(box);
      box.focus();
    }

    function isCurrent() {
      return run.revision === survey.revision();
    }

    function goesOn(one) {
      return one === run && isCurrent() && !run.stopped;
    }

    function stop() {
      run.stopped = true;
      engine.stop("review");
      tell();
    }

    function say(one, line) {
      one.line = line;
      tell();
    }

    function tell() {
      const { running, stopped, found, line } = run;
      const current = isCurrent();
      const place = root.querySelector(".review-progress");
      const text = words();
      if (place.textContent !== text) place.textContent = text;
      box.classList.toggle("stale", found !== null && !current);
      const button = root.querySelector("[data-do=review]");
      button.hidden = before === null;
      button.textContent = `Compare with the sheet before: ${before?.title || "without a title"}${from && ` (${from})`}`;
      button.setAttribute("aria-disabled", String(running && current));
      root.querySelector("[data-do=endReview]").hidden = !(running && current);
      for (const one of root.querySelectorAll("[data-do=saveReview]")) one.hidden = !(found && current);

      function words() {
        if (run.revision === null) return "";
        if (!current) return "The comparison is out of date: the sheet has changed since. Compare again.";
        if (running && !stopped) return line;
        return found ? "Compared with the sheet before, as both stand." : "Stopped: there is no comparison.";
      }
    }

    function save(pressed) {
      const { kind } = pressed.dataset;
      if (!run.found || !isCurrent()) return;
      const [end, type] = kind === "page" ? ["html", "text/html"] : ["md", "text/markdown"];
      desk.download(run.found[kind], `${files.name()}_comparison.${end}`, type);
    }
  }

  dataSheet.review = { of };
});
