/* The views of a record: each has fields and a result, which follows them.
 *
 * A view is computed while it is unfolded; a result belongs to the record and the entries that it was
 * computed for, and is marked until the one for the present entries is there.  Fields outside the
 * views, such as the channel, are entries of every view.
 *
 * `own` is the desk, as desk.js makes it.
 */
(() => {
  "use strict";

  const PAUSE = 250; // ms after the last change before a view is computed
  const TRAIN = "harmonics.sources.source_table"; // the form whose drive train is meant
  const KEPT = {
    sheet: () => ({ sheet: dataSheet.store.read()?.sheet }),
    form: () => ({ form: calculator.fleet.names().current?.forms[TRAIN] }),
  };

  function of(own) {
    const { root } = own;
    const boxes = [...root.querySelectorAll(".record-view")];
    const states = new Map(boxes.map((box) => [box, { wanted: 0, shown: -1, stopped: false }]));

    for (const box of boxes) box.addEventListener("toggle", () => box.open && later(box, 0));
    root.addEventListener("input", ({ target }) => {
      const box = target.closest(".record-view");
      if (box && target.name) changed(box);
      else if (target.closest(".record-common")) boxes.forEach(changed);
    });
    document.addEventListener("keydown", ({ key }) => key === "Escape" && boxes.filter(isWaiting).forEach(stop));
    return { anew, clear, request, set, stop: (pressed) => stop(pressed.closest(".record-view")) };

    /** Compute every view that is unfolded, but those that were stopped: the record is there. */
    function anew() {
      boxes.filter((box) => !states.get(box).stopped).forEach(changed);
    }

    function clear() {
      for (const box of boxes) {
        Object.assign(states.get(box), { shown: -1, stopped: false });
        part(box, "result").replaceChildren();
        tell(box, "");
      }
    }

    function changed(box) {
      Object.assign(states.get(box), { wanted: states.get(box).wanted + 1, stopped: false });
      part(box, "result").classList.toggle("stale", states.get(box).shown >= 0);
      later(box, PAUSE);
    }

    function later(box, pause) {
      const state = states.get(box);
      clearTimeout(state.timer);
      state.timer = setTimeout(() => compute(box), pause);
    }

    async function compute(box) {
      const state = states.get(box);
      if (!box.open || !own.isThere() || state.stopped || state.shown === state.wanted) return;
      const { wanted } = state;
      state.waiting = true;
      tell(box, "Working …");
      try {
        const answer = await own.ask("record.views.shown", request(box), keyOf(box));
        if (state.wanted !== wanted) return;
        state.shown = wanted;
        show(box, answer);
      } catch (error) {
        if (state.wanted === wanted) refuse(box, error);
      } finally {
        state.waiting = state.wanted !== wanted && state.waiting;
        showStop(box);
      }
    }

    function show(box, { html, words, problems }) {
      for (const field of box.querySelectorAll("[name]")) field.removeAttribute("aria-invalid");
      for (const { field } of problems) fieldOf(box, field)?.setAttribute("aria-invalid", "true");
      const result = part(box, "result");
      if (problems.length === 0) {
        const open = [...result.querySelectorAll("details[open]")].map(({ className }) => className);
        result.innerHTML = html;
        for (const fold of result.querySelectorAll("details")) fold.open = open.includes(fold.className);
        result.dispatchEvent(new Event("answer", { bubbles: true }));
      }
      result.classList.toggle("stale", problems.length > 0);
      tell(box, problems.map(({ message }) => message).join(" ").trim() || words, problems.length > 0);
    }

    function refuse(box, error) {
      if (error.name === "AbortError") return;
      const stopped = error.name === "StopError";
      states.get(box).stopped = stopped || error.name === "TimeoutError"; // not once more by itself
      tell(box, stopped ? "Stopped. Change a field to compute it again." : error.message, !stopped);
    }

    function stop(box) {
      states.get(box).stopped = true; // until a field changes
      engine.stop(keyOf(box));
    }

    function isWaiting(box) {
      return states.get(box).waiting;
    }

    function showStop(box) {
      box.querySelector("[data-do=stopView]").hidden = !isWaiting(box);
    }

    function tell(box, text, wrong = false) {
      const line = part(box, "words");
      line.textContent = text;
      line.classList.toggle("wrong", wrong);
      showStop(box);
    }

    /** Return what the engine is asked: the fields of a view and those of all views, by name, and the
     * drive train that the browser keeps, where its lines are expected. */
    function request(box) {
      const fields = [...root.querySelectorAll(".record-common [name]"), ...box.querySelectorAll(".record-fields [name]")];
      const entries = Object.fromEntries(fields.map(({ name, value }) => [name, value]));
      return { view: box.dataset.view, entries, kept: KEPT[entries.lines]?.() ?? {} };
    }

    /** Put values into fields of a view and compute it. */
    function set(box, values) {
      for (const [name, value] of Object.entries(values)) fieldOf(box, name).value = value;
      changed(box);
    }

    function fieldOf(box, name) {
      return box.querySelector(`[name="${CSS.escape(name)}"]`) ?? root.querySelector(`.record-common [name="${CSS.escape(name)}"]`);
    }

    function part(box, kind) {
      return box.querySelector(`.record-${kind}`);
    }
  }

  function keyOf(box) {
    return `record ${box.dataset.view}`;
  }

  recordDesk.views = { of };
})();
