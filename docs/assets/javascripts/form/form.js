/* Live forms: what a reader does changes the state of a form, and all else is made from the state.
 *
 * The engine is asked after every change.  Its answer belongs to the revision of the state that it
 * was asked for: it is shown where no later answer stands already, marked as out of date unless it
 * is that of the present entries, and it never changes an entry.
 */
(() => {
  "use strict";

  const { units, link, state: states, paste, problems, view, desk, fleet, owner } = calculator;
  const PAUSE = 600; // ms after the last change before a screen reader is told the result

  const forms = []; // {form, shape, open, state, fragment}
  for (const form of document.querySelectorAll("form.calculator")) forms.push(enliven(form));
  desk.openLinks(forms);
  calculator.forms = forms;

  function enliven(form) {
    const name = form.dataset.formula;
    const shape = view.shapeOf(form);
    const part = (kind) => form.querySelector(`.calculator-${kind}`);
    const example = { html: part("result").innerHTML, entries: view.entriesOf(form, shape, true) };
    const typedBefore = view.entriesOf(form, shape, false); // before this script ran
    let state = states.started(shape, example.entries, units.current());
    const first = { revision: state.system === units.systems[0] ? 0 : -1, values: state.values };
    let answered = { ...first, problems: [] }; // the newest answer that is shown
    let asked = answered.revision; // the newest revision that was asked about
    let inView = false;
    const acts = { load, entries, start: () => example.entries, edit };
    let awake = false;
    let stopped = { revision: null }; // the last calculation that was ended before it had a result
    let undone = false; // the last change was undone, and the next begins nothing anew
    let busy = false; // a copy or a file is being made
    let speaking;

    form.classList.add("live");
    part("waiting").tabIndex = -1; // for a reader at the button in it that goes away
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("pointerover", wake, { once: true });
    form.addEventListener("focusin", wake, { once: true });
    form.addEventListener("input", onInput);
    form.addEventListener("change", onChange);
    form.addEventListener("focusout", onLeave);
    form.addEventListener("click", onClick);
    form.addEventListener("keydown", onKey);
    form.addEventListener("paste", onPaste);
    form.addEventListener("reset", (event) => {
      event.preventDefault();
      load(example.entries, "example");
    });
    document.addEventListener("keydown", onEscape);
    document.addEventListener("engine:progress", showProgress);
    document.addEventListener("fleet", showNotice);
    document.addEventListener("units", turn);
    new IntersectionObserver(onView, { rootMargin: "200px" }).observe(form);
    addEventListener("storage", showNotice);
    if (JSON.stringify(typedBefore) === JSON.stringify(example.entries)) render();
    else load(typedBefore, "mine");
    return { form, shape, open, state: () => state, fragment, caughtUp };

    function entries() {
      return states.entries(state, shape);
    }

    function fragment() {
      const system = state.system === units.current() ? units.chosen() : state.system;
      const text = link.unitsText(system, state.results);
      const given = { ...entries(), ...(text && { [link.UNITS]: text }) };
      return link.fragment(given, desk.prefix(form), shape.fields);
    }

    /** Return what the engine is asked about: the entries and the units as they are shown. */
    function request() {
      return { name, entries: states.request(state, shape), system: state.system, results: state.results };
    }

    /** The one place where the state changes. */
    function become(next) {
      if (next === state) return;
      const [old, before, anew] = [entries(), state.values, state.origin === "example" && !undone && !next.owner];
      undone = false;
      state = next;
      render();
      compute();
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
      if (inView) compute();
      desk.keepAddress(forms);
    }

    /** A result that only has other units is asked for when it comes into view. */
    function onView(seen) {
      inView = seen.at(-1).isIntersecting;
      if (inView) caughtUp();
    }

    /** Ask about what is not asked yet, and wait for it. */
    async function caughtUp() {
      if (asked < state.revision) await compute();
    }

    function render() {
      view.show(form, shape, state);
      showNotice();
      showProgress();
    }

    /* ---- the answer ---- */

    async function compute() {
      const { revision, digits, values } = state;
      asked = revision;
      if (isAsMade() && state.doubts.length === 0) {
        const spoken = "The numbers of the example";
        return receive({ html: example.html, spoken, problems: [] }, revision, values);
      }
      const given = { ...request(), digits };
      if (state.origin === "link" && revision === state.since) expect();
      stopped = { revision: null };
      showProgress();
      try {
        receive(await desk.asked("form.answer.answer", given, `${name} answer`), revision, values);
      } catch (error) {
        if (error.name !== "AbortError" && revision === state.revision) failed(error);
      }
    }

    function stop() {
      for (const job of ["answer", "copy"]) engine.stop(`${name} ${job}`);
    }

    /** Whether the form is to show what stood in the page when it was made. */
    function isAsMade() {
      const start = state.digits === 4 && state.system === units.systems[0];
      return start && desk.same(state.results, {}) && desk.same(entries(), example.entries);
    }

    /** Entries that came with a link have no result yet, and that of others must not stand there. */
    function expect() {
      part("result").classList.add("pending");
      view.noResult(form, "the result of these numbers is on its way");
    }

    function receive(answer, revision, values) {
      if (revision <= answered.revision || revision < state.since) return;
      answered = { revision, values, problems: [...doubted(), ...answer.problems] };
      part("trouble").hidden = true;
      part("result").classList.remove("pending");
      if (state.doubts.length > 0) view.noResult(form, state.doubts[0]);
      else view.showResult(form, answer.html);
      showProgress();
      if (revision !== state.revision) return;
      const opened = state.doubts.length > 0 || (state.origin === "link" && !state.touched);
      if (answered.problems.length === 0) problems.clear(form);
      else if (opened) problems.show(form, answered.problems, desk.isIdle());
      problems.offerChoices(form, answer.problems, take);
      clearTimeout(speaking);
      const spoken = state.doubts[0] ?? answer.spoken;
      speaking = setTimeout(() => (part("status").textContent = spoken), PAUSE);
    }

    function doubted() {
      return state.doubts.map((message) => ({ message, field: "", choices: [] }));
    }

    /** Without an engine the result that stands there stays; a calculation that fails has none. */
    function failed(error) {
      if (engine.state === "failed") return showTrouble(error);
      if (["StopError", "TimeoutError"].includes(error.name)) return halted(error);
      answered = { revision: state.revision, values: state.values, problems: null };
      part("result").classList.remove("pending");
      view.noResult(form, error.message);
      showProgress();
    }

    /** A calculation was stopped: what stands there stays, marked, until the reader asks again. */
    function halted({ message }) {
      if (isCurrent()) return showProgress(); // it was a copy
      stopped = { revision: state.revision, message };
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
      return answered.revision === state.revision;
    }

    /** Whether the result that is shown is that of the entries, though in other units or digits. */
    function isTurned() {
      return answered.values === state.values;
    }

    function showProgress() {
      const pending = part("result").classList.contains("pending");
      part("result").classList.toggle("stale", !isCurrent() && !pending);
      const before = isTurned() ? "in the units before" : "that of the entries before";
      const below = pending ? "" : ` The result below is ${before}.`;
      const isStopped = stopped.revision === state.revision;
      const working = { ready: "Working …", failed: "" }[engine.state] ?? "Starting the calculator …";
      const going = isStopped ? `${stopped.message}.` : working;
      const text = isCurrent() ? "" : `${going}${below}`.trim();
      const alone = busy || (awake && engine.state === "starting") ? working : "";
      part("progress").textContent = text || alone;
      const button = form.querySelector(".stop");
      const unused = engine.state === "failed" || (isCurrent() && !busy);
      if (unused && button === document.activeElement) part("waiting").focus({ preventScroll: true });
      button.hidden = unused;
      button.textContent = isStopped ? "Calculate again" : "Stop (Esc)";
    }

    function wake() {
      awake = true;
      part("trouble").hidden = true;
      engine.start().catch(showTrouble);
    }

    /* ---- whose numbers these are ---- */

    function showNotice() {
      const changed = state.touched ? ", and you have changed them" : "";
      const told = `These numbers came with a link${changed}. What you saved is unchanged.`;
      view.notice(form, [...(state.origin === "link" ? [told] : []), ...state.notes]);
      owner.show(form, shape, state, acts);
    }

    /** Show the entries of a link at once; those it does not give are the example's. */
    function open({ entries: given, doubts, system, results, strange }) {
      const missing = shape.keys.filter((key) => !Object.hasOwn(given, key));
      const partly = missing.length > 0 && missing.length < shape.keys.length;
      const labels = missing.map((key) => shape.fields[key].label).join(", ");
      const notes = partly ? [`Not in the link, and therefore as in the example: ${labels}.`] : [];
      if (strange.length > 0) notes.push(`The link asks for units that are not known here: ${strange.join(", ")}.`);
      const told = { doubts, notes, system, results };
      load({ ...example.entries, ...given }, "link", undefined, told);
    }

    /* ---- what the reader does ---- */

    function onInput({ target }) {
      if (!target.closest(".calculator-fields") || target.matches(".unit-list")) return;
      const place = view.placeOf(target);
      become(states.typed(state, place, target.value, unitsAt(place)));
    }

    /** Return the units that an entry can be in; none for a word. */
    function unitsAt({ key, column }) {
      const field = shape.fields[key];
      return (field.columns?.[column] ?? field).units;
    }

    function onChange({ target }) {
      if (target.matches("[data-digits]")) {
        return become(states.viewed(state, { digits: Number(target.value) }));
      }
      if (target.matches(".result-unit")) return chooseResultUnit(target);
      if (!target.closest(".calculator-fields")) return;
      const place = view.placeOf(target);
      const those = unitsAt(place);
      if (target.matches(".unit-list")) become(states.unitChosen(state, place, target.value, those));
      else if (those && !target.dataset.slider) become(states.left(state, place, those));
    }

    function chooseResultUnit({ value, dataset }) {
      become(states.resultUnitChosen(state, dataset.result, value === dataset.start ? null : value));
    }

    function onLeave() {
      state = states.settled(state);
    }

    function take(field, text) {
      const place = view.placeOf(field);
      become(states.typed(states.settled(state), place, text, unitsAt(place)));
      field.focus();
    }

    function onClick({ target }) {
      const pressed = target.closest("button");
      if (!pressed || pressed.getAttribute("aria-disabled") === "true") return;
      if (pressed.matches(".add-row")) addRow(pressed.closest("[data-table]").dataset.table);
      else if (pressed.matches(".remove-row")) removeRow(view.placeOf(pressed));
      else if (pressed.matches(".raise-row, .lower-row")) moveRow(pressed, view.placeOf(pressed));
      else if (pressed.matches(".stop")) stopped.revision === state.revision ? compute() : stop();
      else if (pressed.matches(".undo")) undo();
      else if (pressed.dataset.copy) copyAs(pressed);
      else if (pressed.dataset.save) saveFigure(pressed.dataset.save);
    }

    function undo() {
      become(states.undone(state));
      undone = true;
    }

    function addRow(key) {
      become(states.rowAdded(state, key, shape.fields[key]));
      view.fieldAt(form, { key, row: state.values[key].rows.at(-1).id, column: 0 }).focus();
    }

    function removeRow({ key, row }) {
      const number = state.values[key].rows.findIndex(({ id }) => id === row);
      become(states.rowRemoved(state, key, row));
      const next = Math.min(number, state.values[key].rows.length - 1);
      view.fieldAt(form, { key, number: next, column: 0 }).focus();
    }

    /** The button keeps the focus, and with it the row that was moved. */
    function moveRow(pressed, { key, row }) {
      become(states.rowMoved(state, key, row, pressed.matches(".raise-row") ? -1 : 1));
      pressed.focus();
      const { rows } = state.values[key];
      const number = 1 + rows.findIndex(({ id }) => id === row);
      part("status").textContent = `Now row ${number} of ${rows.length}`;
    }

    /** Escape stops a calculation, unless it closes something. */
    function onEscape({ key, target, defaultPrevented }) {
      if (key !== "Escape" || defaultPrevented || target.closest("dialog, .owner-name")) return;
      const { hidden } = form.querySelector(".stop");
      if (!hidden && stopped.revision !== state.revision) stop();
    }

    function onKey(event) {
      const command = (event.ctrlKey || event.metaKey) && !event.shiftKey && !event.altKey;
      if (command && event.key.toLowerCase() === "z" && state.past.length > 0) {
        event.preventDefault();
        undo();
        if (desk.isIdle()) form.querySelector(".undo").focus();
      } else if (event.target.matches("select:not(.unit-list, .result-unit)")) desk.chooseByTyping(event);
    }

    function onPaste(event) {
      if (!event.target.closest("[data-table] tbody")) return;
      const place = view.placeOf(event.target);
      const text = event.clipboardData.getData("text/plain");
      const next = paste.pasted(state, place, shape.fields[place.key], text);
      if (!next) return;
      event.preventDefault();
      become(next);
    }

    async function copyAs(pressed) {
      const kind = pressed.dataset.copy;
      const address = `${location.href.split("#")[0]}#${fragment()}`;
      const working = form.querySelector("[data-working]").checked;
      const copies = { ...request(), link: address, working };
      const found = await problemsNow();
      if (!found) return;
      if (found.length > 0) return problems.show(form, found, true);
      const text = kind === "link" ? address : (await made("form.copying.copies", copies))?.[kind];
      if (text === undefined) return;
      await desk.toClipboard(text);
      desk.flash(pressed, "copied");
    }

    /** Return the problems of the entries as they are now, or nothing where none can be told. */
    async function problemsNow() {
      const { revision } = state;
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

    async function saveFigure(kind) {
      const type = kind === "svg" ? "image/svg+xml" : "text/csv";
      const files = await made("form.answer.figure_files", request());
      if (files?.[kind]) desk.download(files[kind], `${shape.name}.${kind}`, type);
    }
  }
})();
