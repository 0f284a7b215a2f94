/* Live forms: what a reader does changes the state of a form, and all else is made from the state. */
(() => {
  "use strict";

  const { units, link, state: states, fields, view, desk, fleet, owner } = calculator;
  const { edits, result: results, copies } = calculator;

  const forms = []; // {form, shape, open, state, fragment, caughtUp}
  for (const form of document.querySelectorAll("form.calculator")) forms.push(enliven(form));
  desk.openLinks(forms);
  calculator.forms = forms;

  function enliven(form) {
    const name = form.dataset.formula;
    const shape = fields.shapeOf(form);
    const part = (kind) => form.querySelector(`.calculator-${kind}`);
    const example = { html: part("result").innerHTML, entries: fields.entriesOf(form, shape, true) };
    const typedBefore = fields.entriesOf(form, shape, false); // before this script ran
    let state = states.started(shape, example.entries, units.current());
    let inView = false;
    const acts = { load, entries, start: () => example.entries, edit };
    const parts = { form, name, shape, example, part };
    const own = { ...parts, state: () => state, entries, request, fragment, become, settle, undo };
    const changes = edits.of(own);
    const result = results.of(own, changes.take);
    const copy = copies.of(own, result);

    form.classList.add("live");
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("click", onClick);
    form.addEventListener("reset", (event) => {
      event.preventDefault();
      load(example.entries, "example");
    });
    document.addEventListener("fleet", showNotice);
    document.addEventListener("units", turn);
    new IntersectionObserver(onView, { rootMargin: "200px" }).observe(form);
    addEventListener("storage", showNotice);
    if (JSON.stringify(typedBefore) === JSON.stringify(example.entries)) render();
    else load(typedBefore, "mine");
    return { form, shape, open, state: () => state, fragment: quoting, caughtUp: result.caughtUp };

    function entries() {
      return states.entries(state, shape);
    }

    /** Return the fragment of the entries with what their link quotes, as long as that is told. */
    function quoting() {
      const about = Object.entries(state.quoted ?? {}).filter(([, text]) => text !== undefined);
      return fragment(Object.fromEntries(about));
    }

    function fragment(about = {}) {
      const system = state.system === units.current() ? units.chosen() : state.system;
      const text = link.unitsText(system, state.results);
      const given = { ...entries(), ...(text && { [link.UNITS]: text }), ...about };
      return link.fragment(given, desk.prefix(form), shape.fields);
    }

    /** Return what the engine is asked about: the entries and the units as they are shown. */
    function request() {
      return { name, entries: states.request(state, shape), system: state.system, results: state.results };
    }

    /** The one place where the state changes. */
    function become(next) {
      if (next === state) return;
      const [old, before, anew] = [entries(), state.values, state.origin === "example" && !state.undone && !next.owner];
      state = next;
      render();
      result.compute();
      if (state.origin === "mine" && state.values !== before) {
        const owner = state.owner ?? fleet.names().current?.id;
        state = { ...state, owner: fleet.keep(owner, shape, old, entries(), anew) };
        showNotice();
      }
      desk.keepAddress(forms);
    }

    function edit(change) {
      become(states.edited(state, change));
    }

    /** A field was left: what is typed there next is an edit of its own. */
    function settle() {
      state = states.settled(state);
    }

    function undo() {
      become(states.undone(state));
    }

    /** Put whole entries in: the example, those of a link, or those of a rotorcraft. */
    function load(given, origin, owner, told) {
      const system = told?.system ?? units.current();
      const results = told?.results ?? state.results;
      become({ ...states.loaded({ ...state, system, results }, shape, given, origin, told), owner });
    }

    /** Another system of units was chosen, here or elsewhere. */
    function turn() {
      if (state.system === units.current()) return;
      state = states.viewed(state, { system: units.current() });
      render();
      if (inView) result.compute();
      desk.keepAddress(forms);
    }

    /** A result that only has other units is asked for when it comes into view. */
    function onView(seen) {
      inView = seen.at(-1).isIntersecting;
      if (inView) result.caughtUp();
    }

    function render() {
      view.show(form, shape, state);
      showNotice();
      result.showProgress();
    }

    function showNotice() {
      const changed = state.touched ? ", and you have changed them" : "";
      const told = `These numbers came with a link${changed}. What you saved is unchanged.`;
      const lines = [...(state.origin === "link" ? [told] : []), ...state.notes];
      view.notice(form.querySelector(".calculator-notice"), lines);
      for (const box of form.querySelectorAll(".table-notice")) {
        const isMeant = state.pasted?.key === box.closest("[data-table]").dataset.table;
        view.notice(box, isMeant ? state.pasted.lines : []);
      }
      owner.show(form, shape, state, acts);
    }

    /** Show the entries of a link at once; those it does not give are the example's. */
    function open({ entries: given, doubts, system, results, strange, quoted }) {
      const missing = shape.keys.filter((key) => !Object.hasOwn(given, key));
      const partly = missing.length > 0 && missing.length < shape.keys.length;
      const labels = missing.map((key) => shape.fields[key].label).join(", ");
      const notes = partly ? [`Not in the link, and therefore as in the example: ${labels}.`] : [];
      if (strange.length > 0) notes.push(`The link asks for units that are not known here: ${strange.join(", ")}.`);
      const told = { doubts, notes, system, results, quoted };
      load({ ...example.entries, ...given }, "link", undefined, told);
    }

    function onClick({ target }) {
      const pressed = target.closest("button");
      if (!pressed || pressed.getAttribute("aria-disabled") === "true") return;
      if (pressed.matches(".stop")) result.stopOrGoOn();
      else if (pressed.matches(".undo")) undo();
      else if (pressed.dataset.copy) copy.copyAs(pressed);
      else if (pressed.dataset.save) copy.saveFigure(pressed.dataset.save);
      else changes.changeRows(pressed);
    }
  }
})();
