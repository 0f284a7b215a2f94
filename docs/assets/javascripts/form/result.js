/* The result of a form: asking for it, waiting for it, stopping it, and what the page says meanwhile.
 *
 * The engine is asked after every change.  Its answer belongs to the revision of the state that it
 * was asked for: it is shown where no later answer stands already, marked as out of date unless it
 * is that of the present entries, and it never changes an entry.
 *
 * `own` is the form: its parts, state(), entries() and request(); `take` puts the meaning that the
 * reader chose into a field.
 */
(globalThis.calculator ??= {}).result = (() => {
  "use strict";

  const { units, problems, view, desk } = calculator;
  const CLICK = 250; // ms in which a click that left a field lands, before a mark moves the page
  const PAUSE = 600; // ms after the last change before a screen reader is told the result

  function of(own, take) {
    const { form, name, example, part } = own;
    const { revision, system, values } = own.state();
    const first = { revision: system === units.systems[0] ? 0 : -1, values };
    let answered = { ...first, problems: [] }; // the newest answer that is shown
    let asked = answered.revision; // the newest revision that was asked about
    let awake = false;
    let stopped = { revision: null }; // the last calculation that was ended before it had a result
    let busy = false; // a copy or a file is being made
    let speaking;

    part("waiting").tabIndex = -1; // for a reader at the button in it that goes away
    form.addEventListener("pointerover", wake, { once: true });
    form.addEventListener("focusin", wake, { once: true });
    form.addEventListener("focusout", () => setTimeout(markLeft, CLICK));
    document.addEventListener("keydown", onEscape);
    document.addEventListener("engine:progress", showProgress);
    return { compute, caughtUp, problemsNow, made, showProgress, stopOrGoOn };

    async function compute() {
      const { revision, digits, values, doubts, origin, since, quoted } = own.state();
      asked = revision;
      if (isAsMade() && doubts.length === 0 && !quoted) {
        const spoken = "The numbers of the example";
        return receive({ html: example.html, spoken, problems: [] }, revision, values);
      }
      const given = { ...own.request(), digits, quoted };
      if (origin === "link" && revision === since) expect();
      stopped = { revision: null };
      showProgress();
      try {
        receive(await desk.asked("form.answer.answer", given, `${name} answer`), revision, values);
      } catch (error) {
        if (error.name !== "AbortError" && revision === own.state().revision) failed(error);
      }
    }

    /** Ask about what is not asked yet, and wait for it. */
    async function caughtUp() {
      if (asked < own.state().revision) await compute();
    }

    /** Return the problems of the entries as they are now, or nothing where none can be told. */
    async function problemsNow() {
      const { revision } = own.state();
      if (!isCurrent()) await compute();
      return answered.revision >= revision ? answered.problems : null;
    }

    /** Return what the engine makes of the result that is there, or nothing if it is stopped. */
    async function made(call, given) {
      busy = true;
      showProgress();
      try {
        return await desk.asked(call, given, `${name} copy`);
      } catch (error) {
        if (error.name !== "AbortError") failed(error);
        return undefined;
      } finally {
        busy = false;
        showProgress();
      }
    }

    /** The button stops a calculation, or starts a stopped one again. */
    function stopOrGoOn() {
      if (isStopped()) compute();
      else stop();
    }

    function stop() {
      for (const job of ["answer", "copy"]) engine.stop(`${name} ${job}`);
    }

    /** Escape stops a calculation, unless it closes something in the form. */
    function onEscape(event) {
      const { key, target, defaultPrevented } = event;
      const around = target.closest("dialog");
      const closes = target.closest(".owner-name") || (around && !around.contains(form));
      if (key !== "Escape" || defaultPrevented || closes) return;
      const { hidden } = form.querySelector(".stop");
      if (hidden || isStopped()) return;
      event.preventDefault(); // a form that fills the window stays so
      stop();
    }

    /** Whether the form is to show what stood in the page when it was made. */
    function isAsMade() {
      const { digits, system, results } = own.state();
      const start = digits === 4 && system === units.systems[0];
      return start && desk.same(results, {}) && desk.same(own.entries(), example.entries);
    }

    /** Entries that came with a link have no result yet, and that of others must not stand there. */
    function expect() {
      part("result").classList.add("pending");
      view.noResult(form, "the result of these numbers is on its way");
    }

    function receive(answer, revision, values) {
      const { since, doubts, origin, touched } = own.state();
      if (revision <= answered.revision || revision < since) return;
      answered = { revision, values, problems: [...doubted(), ...answer.problems] };
      part("trouble").hidden = true;
      part("result").classList.remove("pending");
      if (doubts.length > 0) view.noResult(form, doubts[0]);
      else view.showResult(form, answer.html);
      showProgress();
      if (revision !== own.state().revision) return;
      const opened = doubts.length > 0 || (origin === "link" && !touched);
      if (answered.problems.length === 0) problems.clear(form);
      else if (opened) problems.show(form, answered.problems, desk.isIdle());
      else mark();
      problems.offerChoices(form, answer.problems, take);
      clearTimeout(speaking);
      const spoken = doubts[0] ?? answer.spoken;
      speaking = setTimeout(() => (part("status").textContent = spoken), PAUSE);
    }

    /** A field was left: what is wrong in it is said beside it. */
    function markLeft() {
      if (isCurrent() && answered.problems?.length > 0) mark();
    }

    /** Mark what is wrong; of a paste that is all, though the reader is still at a cell of it. */
    function mark() {
      problems.mark(form, answered.problems, own.state().pasted ? null : document.activeElement);
    }

    function doubted() {
      return own.state().doubts.map((message) => ({ message, field: "", choices: [] }));
    }

    /** Without an engine the result that stands there stays; a calculation that fails has none. */
    function failed(error) {
      if (engine.state === "failed") return showTrouble(error);
      if (["StopError", "TimeoutError"].includes(error.name)) return halted(error);
      const { revision, values } = own.state();
      answered = { revision, values, problems: null };
      part("result").classList.remove("pending");
      view.noResult(form, error.message);
      showProgress();
    }

    /** A calculation was stopped: what stands there stays, marked, until the reader asks again. */
    function halted({ message }) {
      if (isCurrent()) return showProgress(); // it was a copy
      stopped = { revision: own.state().revision, message };
      if (part("result").matches(".pending")) view.noResult(form, "no result");
      showProgress();
      part("status").textContent = part("progress").textContent;
    }

    function showTrouble(error) {
      if (part("result").matches(".pending")) view.noResult(form, "no result");
      const again = view.button("Try again", () => (isCurrent() ? wake() : compute()));
      const turned = isTurned() ? "The result below holds, in other units." : "Your numbers have no result.";
      const standing = isCurrent() ? "The result below holds." : turned;
      part("trouble").replaceChildren(`${error.message}. ${standing} `, again);
      part("trouble").hidden = false;
      showProgress();
    }

    function isCurrent() {
      return answered.revision === own.state().revision;
    }

    /** Whether the result that is shown is that of the entries, though in other units or digits. */
    function isTurned() {
      return answered.values === own.state().values;
    }

    function isStopped() {
      return stopped.revision === own.state().revision;
    }

    function showProgress() {
      const pending = part("result").classList.contains("pending");
      part("result").classList.toggle("stale", !isCurrent() && !pending);
      const before = isTurned() ? "in the units before" : "that of the entries before";
      const below = pending ? "" : ` The result below is ${before}.`;
      const working = { ready: "Working …", failed: "" }[engine.state] ?? "Starting the calculator …";
      const going = isStopped() ? `${stopped.message}.` : working;
      const text = isCurrent() ? "" : `${going}${below}`.trim();
      const alone = busy || (awake && engine.state === "starting") ? working : "";
      part("progress").textContent = text || alone;
      const button = form.querySelector(".stop");
      const unused = engine.state === "failed" || (isCurrent() && !busy);
      if (unused && button === document.activeElement) part("waiting").focus({ preventScroll: true });
      button.hidden = unused;
      button.textContent = isStopped() ? "Calculate again" : "Stop (Esc)";
    }

    function wake() {
      awake = true;
      part("trouble").hidden = true;
      engine.start().catch(showTrouble);
    }
  }

  return { of };
})();
