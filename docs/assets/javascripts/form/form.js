/* Live forms: what a reader does changes the state of a form, and all else is made from the state.
 *
 * The engine is asked after every change.  Its answer belongs to the revision of the state that it
 * was asked for: it is shown where no later answer stands already, marked as out of date unless it
 * is that of the present entries, and it never changes an entry.
 */
(() => {
  "use strict";

  const { link, state: states, paste, problems, view, desk, fleet, owner } = calculator;
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
    let state = states.started(shape, example.entries);
    let answered = { revision: 0, problems: [] }; // the newest answer that is shown
    const acts = { load, entries, start: () => example.entries, edit };
    let awake = false;
    let stopped = { revision: null }; // the last calculation that was ended before it had a result
    let busy = false; // a copy or a file is being made
    let speaking;

    form.classList.add("live");
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
    addEventListener("storage", showNotice);
    if (JSON.stringify(typedBefore) === JSON.stringify(example.entries)) render();
    else load(typedBefore, "mine");
    return { form, shape, open, state: () => state, fragment };

    function entries() {
      return states.entries(state, shape);
    }

    function fragment() {
      return link.fragment(entries(), desk.prefix(form), shape.fields);
    }

    /** The one place where the state changes. */
    function become(next) {
      if (next === state) return;
      const old = entries();
      state = next;
      render();
      compute();
      if (state.origin === "mine") {
        const owner = state.owner ?? fleet.names().current?.id;
        state = { ...state, owner: fleet.keep(owner, shape, old, entries()) };
        showNotice();
      }
      desk.keepAddress(forms);
    }

    function edit(change) {
      become(states.edited(state, change));
    }

    /** Put whole entries in: the example, those of a link, or those of a rotorcraft. */
    function load(given, origin, owner, told) {
      become({ ...states.loaded(state, shape, given, origin, told), owner });
    }

    function render() {
      view.show(form, shape, state);
      showNotice();
      showProgress();
    }

    /* ---- the answer ---- */

    async function compute() {
      const { revision, digits } = state;
      const given = { name, entries: entries(), digits };
      if (digits === 4 && desk.same(given.entries, example.entries) && state.doubts.length === 0) {
        const spoken = "The numbers of the example";
        return receive({ html: example.html, spoken, problems: [] }, revision);
      }
      if (state.origin === "link" && revision === state.since) expect();
      stopped = { revision: null };
      showProgress();
      try {
        receive(await desk.asked("form.answer.answer", given, `${name} answer`), revision);
      } catch (error) {
        if (error.name !== "AbortError" && revision === state.revision) failed(error);
      }
    }

    function stop() {
      for (const job of ["answer", "copy"]) engine.stop(`${name} ${job}`);
    }

    /** Entries that came with a link have no result yet, and that of others must not stand there. */
    function expect() {
      part("result").classList.add("pending");
      view.noResult(form, "the result of these numbers is on its way");
    }

    function receive(answer, revision) {
      if (revision <= answered.revision || revision < state.since) return;
      answered = { revision, problems: [...doubted(), ...answer.problems] };
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
      answered = { revision: state.revision, problems: null };
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
      const standing = isCurrent() ? "The result below holds." : "Your numbers have no result.";
      part("trouble").replaceChildren(`${error.message}. ${standing} `, again);
      part("trouble").hidden = false;
      showProgress();
    }

    function isCurrent() {
      return answered.revision === state.revision;
    }

    function showProgress() {
      const pending = part("result").classList.contains("pending");
      part("result").classList.toggle("stale", !isCurrent() && !pending);
      const below = pending ? "" : " The result below is that of the entries before.";
      const isStopped = stopped.revision === state.revision;
      const working = { ready: "Working …", failed: "" }[engine.state] ?? "Starting the calculator …";
      const going = isStopped ? `${stopped.message}.` : working;
      const text = isCurrent() ? "" : `${going}${below}`.trim();
      const alone = busy || (awake && engine.state === "starting") ? working : "";
      part("progress").textContent = text || alone;
      const button = form.querySelector(".stop");
      const unused = engine.state === "failed" || (isCurrent() && !busy);
      if (unused && button === document.activeElement) part("title").focus({ preventScroll: true });
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
    function open(given, doubts) {
      const missing = shape.keys.filter((key) => !Object.hasOwn(given, key));
      const partly = missing.length > 0 && missing.length < shape.keys.length;
      const labels = missing.map((key) => shape.fields[key].label).join(", ");
      const notes = partly ? [`Not in the link, and therefore as in the example: ${labels}.`] : [];
      load({ ...example.entries, ...given }, "link", undefined, { doubts, notes });
    }

    /* ---- what the reader does ---- */

    function onInput({ target }) {
      if (!target.closest(".calculator-fields") || target.matches(".unit-list")) return;
      const { slider, unit } = target.dataset;
      if (slider) become(states.slid(state, slider, target.value, unit));
      else become(states.typed(state, view.placeOf(target), target.value));
    }

    function onChange({ target }) {
      if (target.matches("[data-digits]")) {
        return become({ ...state, digits: Number(target.value), revision: state.revision + 1 });
      }
      if (!target.closest(".calculator-fields")) return;
      const place = view.placeOf(target);
      if (target.matches(".unit-list")) return become(states.unitChosen(state, place, target.value));
      const field = shape.fields[place.key];
      const { units } = field.columns?.[place.column] ?? field;
      if (units && !target.dataset.slider) become(states.left(state, place, units));
    }

    function onLeave() {
      state = states.settled(state);
    }

    function take(field, text) {
      become(states.typed(states.settled(state), view.placeOf(field), text));
      field.focus();
    }

    function onClick({ target }) {
      const pressed = target.closest("button");
      if (!pressed || pressed.getAttribute("aria-disabled") === "true") return;
      if (pressed.matches(".add-row")) addRow(pressed.closest("[data-table]").dataset.table);
      else if (pressed.matches(".remove-row")) removeRow(view.placeOf(pressed));
      else if (pressed.matches(".raise-row, .lower-row")) moveRow(pressed, view.placeOf(pressed));
      else if (pressed.matches(".stop")) stopped.revision === state.revision ? compute() : stop();
      else if (pressed.matches(".undo")) become(states.undone(state));
      else if (pressed.dataset.copy) copyAs(pressed);
      else if (pressed.dataset.save) saveFigure(pressed.dataset.save);
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
        become(states.undone(state));
        if (desk.isIdle()) form.querySelector(".undo").focus();
      } else if (event.target.matches("select:not(.unit-list)")) desk.chooseByTyping(event);
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
      const copies = { name, entries: entries(), link: address, working };
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
      const files = await made("form.answer.figure_files", { name, entries: entries() });
      if (files?.[kind]) desk.download(files[kind], `${shape.name}.${kind}`, type);
    }
  }
})();
