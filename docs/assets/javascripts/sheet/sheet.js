/* The data sheet: what a reader does changes its state, and page, storage, file and survey are all
 * made from the state.  A survey belongs to the revision it was computed for, and is marked as out
 * of date as soon as the sheet has another.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk, view: forms } = calculator;
  const { state: states, view, store } = dataSheet;
  const root = document.getElementById("data-sheet");
  const PAUSE = 500; // ms after the last change before the sheet is checked
  const LARGEST = 200_001; // bytes of a file that are looked at; calc/sheet/file.py refuses so many

  const shape = view.shapeOf(root);
  let state = { content: states.loaded(states.EMPTY, shape), past: [], place: null, revision: 0 };
  let settled = held(); // as it was opened or saved last
  let survey = { revision: null, running: false, answers: new Map(), questions: [] };
  let checking;
  let isKept = true;

  start();

  function start() {
    const there = store.read();
    if (there) become(states.edited(state, states.loaded(there, shape)), { keep: false });
    settled = held();
    tellKept(there === undefined ? "off" : there ? "kept" : "none");
    for (const [event, action] of Object.entries({
      input: onInput, change: onChange, focusout: onLeave, click: onClick, dragover: onDrag, drop: onDrop,
    })) root.addEventListener(event, action);
    root.addEventListener("focusin", () => engine.start().catch(showTrouble), { once: true });
    root.addEventListener("keydown", onKey);
    document.addEventListener("keydown", ({ key }) => key === "Escape" && survey.running && stop());
    document.addEventListener("engine:progress", tellProgress);
    addEventListener("beforeunload", (event) => !isKept && event.preventDefault());
    addEventListener("beforeprint", openAll);
    store.watch(fromOtherTab);
    root.classList.add("live");
  }

  function held() {
    return states.held(state.content, shape);
  }

  /** The one place where the state changes. */
  function become(next, { keep = true } = {}) {
    if (next === state || next.content === state.content) return;
    state = next;
    view.show(root, shape, state);
    tellProgress();
    if (keep) keepNow();
    clearTimeout(checking);
    checking = setTimeout(check, PAUSE);
  }

  function edit(content, place = null) {
    become(content === state.content ? state : states.edited(state, content, place));
  }

  /** Put a whole sheet in; Undo brings the one before back. */
  function take(sheet, told = "") {
    root.querySelector(".sheet-compare").hidden = true;
    view.showProblems(root, [], "");
    edit(states.loaded(sheet, shape));
    settled = held();
    trouble(told);
  }

  /* ---- kept in the browser ---- */

  function keepNow() {
    const { kept, other, lost } = store.write(held());
    if (other && !desk.same(other, held())) {
      const before = states.loaded(other, shape);
      state = { ...state, past: [...state.past.slice(0, -1), before, ...state.past.slice(-1)] };
    }
    tellKept(kept ? (lost ? "lost" : "kept") : "off");
  }

  function tellKept(how) {
    isKept = how !== "off";
    const place = `in the local storage of this browser, under “${store.PLACE}”, for this address alone`;
    const lines = {
      none: `Nothing is kept yet. What you enter is kept ${place}; nothing is sent anywhere.`,
      kept: `Kept ${place}; nothing is sent anywhere. A browser may clear its storage: save the sheet as a file.`,
      lost: `What was kept had been cleared; the sheet as it stands here is kept again, ${place}.`,
      cleared: "What was kept has been cleared, in another tab or by the browser. The sheet here is kept again with the next change; or save it as a file.",
      off: "NOT kept: the storage of this browser is full or switched off. Save the sheet as a file before you close this page.",
      gone: "All that the handbook kept in this browser is deleted.",
      stays: "Not all could be deleted: the browser refused. Clear its data for this address by its own settings.",
    };
    const line = root.querySelector(".sheet-kept");
    line.textContent = lines[how];
    line.classList.toggle("warning", !isKept || how === "stays");
  }

  /** Another tab has changed the sheet: show its sheet; Undo brings the one of this tab back. */
  function fromOtherTab(sheet) {
    if (!sheet) return tellKept("cleared");
    if (desk.same(sheet, held())) return;
    become(states.edited(state, states.loaded(sheet, shape), "another tab"), { keep: false });
    trouble("Another tab has changed the sheet, and this is its sheet now. Undo brings back the one that stood here.");
  }

  /* ---- files ---- */

  async function openBytes(buffer, name) {
    const bytes = new Uint8Array(buffer).subarray(0, LARGEST);
    const content = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
    const found = await asked("sheet.exchange.file_opened", { content });
    if (!found) return;
    if (!found.sheet) {
      root.querySelector(".sheet-compare").hidden = true;
      return view.showProblems(root, found.problems.map((p) => ({ ...p, field: "", message: inFile(p) })), `${name} was not opened; the sheet here is as it was. In the file:`);
    }
    const upgraded = found.changes.length > 0 ? `${name} has an older format; read as the present one: ${found.changes.join("; ")}.` : "";
    if (desk.same(held(), settled)) return take(found.sheet, upgraded);
    const differences = await asked("sheet.exchange.compared", { before: held(), after: found.sheet });
    if (!differences) return;
    if (differences.length === 0) return take(found.sheet, upgraded);
    view.compare(root.querySelector(".sheet-compare"), differences, `${name} differs from the sheet here, which has changes that are in no file:`, [
      ["Replace the sheet here", () => take(found.sheet, upgraded)],
      ["Keep the sheet here", () => (root.querySelector(".sheet-compare").hidden = true)],
    ]);
  }

  function inFile({ line, field, message }) {
    return [line ? `line ${line}` : "", field, message].filter(Boolean).join(": ");
  }

  /** Return the text of the file of the sheet, or nothing after showing what is wrong with it. */
  async function fileText(why) {
    const made = await asked("sheet.exchange.file_made", { sheet: held() });
    if (!made) return null;
    view.showProblems(root, made.problems, made.problems.length > 0 ? why : "");
    return made.problems.length > 0 ? null : made.text;
  }

  async function save() {
    const now = held();
    const text = await fileText("The sheet is not saved yet. Put this right first:");
    if (text === null) return;
    desk.download(text, `${fileName()}.toml`, "application/toml");
    settled = now;
  }

  function fileName() {
    const plain = state.content.title.toLowerCase().replace(/[^a-z0-9]+/g, "_").replace(/^_+|_+$/g, "");
    return plain || "data_sheet";
  }

  /** Show beside the fields what is wrong, without a summary, once the reader pauses. */
  async function check() {
    if (engine.state !== "ready" || survey.running) return;
    const { revision } = state;
    const made = await asked("sheet.exchange.file_made", { sheet: held() }, "sheet check");
    const isShown = !root.querySelector(".sheet-problems").hidden;
    if (made && revision === state.revision && !isShown) view.showProblems(root, made.problems, "");
  }

  async function asked(call, given, key = "sheet") {
    try {
      return await desk.asked(call, given, key);
    } catch (error) {
      if (!["AbortError", "StopError"].includes(error.name)) showTrouble(error);
      return null;
    }
  }

  function showTrouble(error) {
    trouble(error.message);
  }

  function trouble(text) {
    const line = root.querySelector(".sheet-trouble");
    line.textContent = text;
    line.hidden = !text;
  }

  /* ---- the survey ---- */

  async function compute() {
    const { revision } = state;
    survey = { revision, running: true, answers: new Map(), questions: [], done: 0, doing: "" };
    box().replaceChildren();
    tellProgress();
    const run = survey;
    try {
      const text = await fileText("There is no survey yet. Put this right first:");
      if (text === null) return;
      run.text = text;
      run.questions = await desk.asked("survey.asking.questions", { text }, "survey");
      for (const tolerances of [false, true]) await pass(run, tolerances);
      run.whole = goesOn(run);
    } catch (error) {
      if (!["AbortError", "StopError"].includes(error.name)) showTrouble(error);
    } finally {
      run.running = false;
      run.stopped = !run.whole;
      tellProgress();
    }
  }

  function goesOn(run) {
    return run === survey && run.revision === state.revision && !run.stopped;
  }

  /** Ask each question; in the second pass also what the tolerances do to its answer. */
  async function pass(run, tolerances) {
    for (const [number, { key, title }] of run.questions.entries()) {
      if (!goesOn(run)) return;
      run.done = number;
      run.doing = tolerances ? `what the tolerances do to: ${title}` : title;
      tellProgress();
      showAnswer(await answerTo(run, key, title, tolerances));
    }
  }

  async function answerTo(run, key, title, tolerances) {
    try {
      return await desk.asked("survey.asking.answered", { text: run.text, key, tolerances }, "survey");
    } catch (error) {
      if (error.name !== "TimeoutError") throw error;
      if (tolerances) return null; // the answer without them stands
      return { key, html: "", headline: `${title}: ${error.message}` };
    }
  }

  function showAnswer(answer) {
    if (!answer) return;
    const made = document.createElement("details");
    made.className = "sheet-answer";
    made.classList.toggle("warned", Boolean(answer.warned));
    made.classList.toggle("lacking", !answer.given);
    made.innerHTML = answer.html;
    const section = made.querySelector("section");
    const name = section?.querySelector("h2");
    const head = document.createElement("summary");
    head.append(Object.assign(document.createElement("strong"), { textContent: name?.textContent ?? "" }), ` ${answer.headline}`);
    if (answer.warned) head.append(" (with warnings)");
    name?.remove();
    for (const code of section?.querySelectorAll("p > code") ?? []) linkForm(code);
    for (const wide of made.querySelectorAll(".wide")) wide.tabIndex = 0; // scrolls by keyboard
    made.prepend(head);
    made.dataset.key = answer.key;
    const old = box().querySelector(`[data-key="${CSS.escape(answer.key)}"]`);
    made.open = old?.open ?? false;
    if (old) old.replaceWith(made);
    else box().append(made);
  }

  /** The address of the form with the entries of an answer becomes a link to it. */
  function linkForm(code) {
    if (!/^\w+\/\w+\.html#/.test(code.textContent)) return;
    const made = document.createElement("a");
    made.href = code.textContent;
    made.textContent = "open it";
    code.replaceWith(made);
  }

  function box() {
    return root.querySelector(".sheet-answers");
  }

  function stop() {
    survey.stopped = true;
    engine.stop("survey");
    tellProgress();
  }

  function tellProgress() {
    const { running, revision, whole, done, doing, questions } = survey;
    const isCurrent = revision === state.revision;
    const starting = engine.state === "starting" ? "Starting the calculator … " : "";
    let text = "";
    if (running && isCurrent) text = `${starting}${doing ? `${done + 1} of ${questions.length}: ${doing} …` : "Working …"}`;
    else if (revision === null) text = starting.trim();
    else if (!isCurrent) text = "Out of date: the sheet has changed since. Compute the survey again.";
    else text = whole ? `${questions.length} answers, computed from the sheet as it stands.` : "Stopped: the survey is not whole.";
    const line = root.querySelector(".sheet-progress");
    if (line.textContent !== text) line.textContent = text;
    box().classList.toggle("stale", revision !== null && !isCurrent);
    button("stop").hidden = !(running && isCurrent);
    button("survey").disabled = running && isCurrent;
    for (const name of ["report", "print"]) {
      button(name).setAttribute("aria-disabled", String(!(whole && isCurrent)));
    }
  }

  function button(name) {
    return root.querySelector(`[data-do=${name}]`);
  }

  /** The report is made of the survey that stands there, never of one that is out of date. */
  async function report() {
    const run = survey;
    const text = await asked("survey.asking.reported", { text: run.text }, "survey");
    if (text && goesOn(run)) desk.download(text, `${fileName()}_survey.html`, "text/html");
  }

  function openAll() {
    for (const part of root.querySelectorAll("details")) part.open = true;
  }

  function printSurvey() {
    document.documentElement.classList.add("print-survey");
    addEventListener("afterprint", () => document.documentElement.classList.remove("print-survey"), { once: true });
    print();
  }

  /* ---- what the reader does ---- */

  function onInput({ target }) {
    if (target.matches("[name=title], [name=note]")) {
      return edit({ ...state.content, [target.name]: target.value }, target.name);
    }
    const change = {
      "sheet-entry": (value) => states.typed(value, target.value),
      "sheet-origin": (value) => ({ ...value, origin: target.value }),
      "sheet-tolerance": (value) => ({ ...value, tolerance: target.value }),
      "unit-list": (value) => ({ ...value, shown: target.value }),
    }[target.classList[0]];
    if (!change) return;
    const place = view.placeOf(target);
    edit(states.put(state.content, place, change), `${Object.values(place)} ${target.classList[0]}`);
  }

  function onChange({ target }) {
    if (target.matches("[type=file]")) return openFile(target.files[0], () => (target.value = ""));
    if (!target.matches(".sheet-entry")) return;
    const place = view.placeOf(target);
    const field = shape[place.section].fields[place.name];
    let moved = false;
    const content = states.put(state.content, place, (value) => {
      const next = states.left(value, field);
      moved = next !== value;
      return next;
    });
    if (moved) become({ ...state, content, revision: state.revision + 1 });
  }

  function onLeave() {
    state = states.settled(state);
  }

  function onKey(event) {
    const command = (event.ctrlKey || event.metaKey) && !event.shiftKey && !event.altKey;
    if (!command || event.key.toLowerCase() !== "z" || state.past.length === 0) return;
    event.preventDefault();
    become(states.undone(state));
  }

  async function openFile(file, then = () => {}) {
    if (file) await openBytes(await file.slice(0, LARGEST).arrayBuffer(), file.name);
    then();
  }

  function onDrag(event) {
    if ([...event.dataTransfer.types].includes("Files")) event.preventDefault();
  }

  function onDrop(event) {
    const [file] = event.dataTransfer.files;
    if (!file) return;
    event.preventDefault();
    openFile(file);
  }

  function onClick({ target }) {
    const pressed = target.closest("button");
    if (!pressed || pressed.getAttribute("aria-disabled") === "true") return;
    const { example, do: act } = pressed.dataset;
    if (example) {
      const text = document.getElementById(`example-${example}`).content.textContent;
      return openBytes(new TextEncoder().encode(text).buffer, pressed.textContent);
    }
    if (["add", "raise", "lower", "remove"].includes(act)) return changeRow(pressed, act);
    ({ save, undo, blank, delete: clear, survey: compute, stop, report, print: printSurvey })[act]?.(pressed);
  }

  function changeRow(pressed, act) {
    const { section, row } = view.placeOf(pressed);
    const { content } = state;
    if (act === "add") {
      edit(states.rowAdded(content, section, shape[section]));
      const line = pressed.parentElement.querySelector(".sheet-line:last-child");
      line.open = true;
      line.querySelector(".sheet-entry").focus();
    } else if (act === "remove") {
      edit(states.rowRemoved(content, section, row));
      root.querySelector(`[data-section="${section}"] [data-do=add]`).focus();
    } else {
      edit(states.rowMoved(content, section, row, act === "raise" ? -1 : 1));
      pressed.focus();
    }
  }

  function undo() {
    become(states.undone(state));
    trouble("");
  }

  function blank() {
    take({ title: "", note: "", values: {}, rows: {} }, "The sheet is empty now. Undo brings the one before back.");
  }

  /** Deleting asks once more, for it cannot be undone. */
  function clear(pressed) {
    if (pressed.dataset.sure === undefined) {
      pressed.dataset.sure = "";
      pressed.textContent = "Delete all my data of the handbook for good";
      return;
    }
    delete pressed.dataset.sure;
    pressed.textContent = "Delete my data";
    stop();
    survey = { revision: null, running: false, answers: new Map(), questions: [] };
    box().replaceChildren();
    become({ content: states.loaded(states.EMPTY, shape), past: [], place: null, revision: state.revision + 1 }, { keep: false });
    settled = held();
    tellKept(store.clear() ? "gone" : "stays");
  }
});
