/* The survey of a data sheet: computed question by question, stopped and shown.
 *
 * A survey belongs to the revision of the sheet that it was computed for, and is marked as out of
 * date as soon as the sheet has another; the title block of the report belongs to no answer.  A button
 * with data-whole works only while the whole survey of the sheet as it stands is there, one with
 * data-current while its answers are of the sheet as it stands.
 *
 * `own` is the sheet, as sheet.js makes it; `files` gives its text and the name of its file.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk, units } = calculator;
  const { answers } = dataSheet;

  function of(own, files) {
    const { root } = own;
    const box = root.querySelector(".sheet-answers");
    let survey = none();
    let seen = own.state().content;
    let revision = 0;

    document.addEventListener("keydown", ({ key }) => key === "Escape" && survey.running && stop());
    document.addEventListener("engine:progress", tell);
    document.addEventListener("units", reshow);
    return {
      compute, stop, tell, clear, revision: revisionNow,
      isBusy: () => survey.running, isCurrent: () => isCurrent(survey),
      whole: () => (survey.whole && isCurrent(survey) ? survey : null), questions: () => survey.questions,
    };

    function none() {
      return { revision: null, running: false, questions: [], done: 0, doing: "" };
    }

    function clear() {
      stop();
      survey = none();
      box.replaceChildren();
    }

    async function compute() {
      const run = { ...none(), revision: revisionNow(), running: true, system: units.current() };
      survey = run;
      box.replaceChildren();
      tell();
      try {
        const text = await files.text("There is no survey yet. Put this right first:");
        if (text === null) return;
        run.text = text;
        run.questions = await desk.asked("survey.asking.questions", { text }, "survey");
        for (const tolerances of [false, true]) await pass(run, tolerances);
        run.whole = goesOn(run);
      } catch (error) {
        own.failed(error);
      } finally {
        run.running = false;
        tell();
        reshow();
      }
    }

    /** Show the answers in the units that were chosen since; the engine has their numbers. */
    async function reshow() {
      const run = survey;
      const system = units.current();
      if (!run.whole || run.system === system) return;
      run.system = system;
      try {
        for (const { key, title } of run.questions) {
          const answer = await answerTo(run, key, title, true);
          if (run !== survey || run.system !== system) return;
          if (answer) answers.show(box, answer);
        }
      } catch (error) {
        own.failed(error);
      }
    }

    function isCurrent(run) {
      return run === survey && run.revision === revisionNow();
    }

    /** Return the revision of all that answers depend on. */
    function revisionNow() {
      const { content } = own.state();
      if (content !== seen && !isTitleBlockAlone(seen, content)) revision += 1;
      seen = content;
      return revision;
    }

    /** Whether two contents differ in nothing but the title block. */
    function isTitleBlockAlone(one, other) {
      const isSame = (part) => Object.entries(one[part]).every(([key, value]) => value === other[part][key] || key.startsWith("report."));
      return one.title === other.title && one.note === other.note && isSame("values") && isSame("rows");
    }

    function goesOn(run) {
      return isCurrent(run) && !run.stopped;
    }

    /** Ask each question; in the second pass also what the tolerances do to its answer. */
    async function pass(run, tolerances) {
      for (const [number, { key, title }] of run.questions.entries()) {
        if (!goesOn(run)) return;
        run.done = number;
        run.doing = tolerances ? `what the tolerances do to: ${title}` : title;
        tell();
        const answer = await answerTo(run, key, title, tolerances);
        if (answer && goesOn(run)) answers.show(box, answer);
      }
    }

    async function answerTo(run, key, title, tolerances) {
      try {
        const { text, system } = run;
        return await desk.asked("survey.asking.answered", { text, key, tolerances, system }, "survey");
      } catch (error) {
        if (error.name !== "TimeoutError") throw error;
        if (tolerances) return null; // the answer without them stands
        return { key, html: "", headline: `${title}: ${error.message}` };
      }
    }

    function stop() {
      survey.stopped = true;
      engine.stop("survey");
      tell();
    }

    /** Say how far the survey is, and whether it is of the sheet as it stands. */
    function tell() {
      const { running, revision, whole } = survey;
      const current = isCurrent(survey);
      const line = root.querySelector(".sheet-progress");
      const text = words(survey, current);
      if (line.textContent !== text) line.textContent = text;
      box.classList.toggle("stale", revision !== null && !current);
      root.querySelector("[data-do=stop]").hidden = !(running && current);
      root.querySelector("[data-do=survey]").disabled = running && current;
      for (const button of root.querySelectorAll("[data-whole]")) {
        button.setAttribute("aria-disabled", String(!(whole && current)));
      }
      for (const button of root.querySelectorAll("[data-current]")) {
        button.setAttribute("aria-disabled", String(!current));
      }
      root.dispatchEvent(new Event("survey:told"));
    }

    function words({ running, revision, whole, done, doing, questions }, current) {
      const starting = engine.state === "starting" ? "Starting the calculator … " : "";
      if (revision === null) return starting.trim();
      if (!current) return "Out of date: the sheet has changed since. Compute the survey again.";
      if (running) return starting + (doing ? `${done + 1} of ${questions.length}: ${doing} …` : "Working …");
      return whole ? `${questions.length} answers, computed from the sheet as it stands.` : "Stopped: the survey is not whole.";
    }
  }

  dataSheet.survey = { of };
});
