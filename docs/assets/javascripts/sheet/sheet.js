/* The data sheet: what a reader does changes its state, and page, storage, file and survey are all
 * made from the state.
 *
 * Each part gets the sheet as `own`: {root, shape}; state(), held() (the sheet as Python holds it)
 * and loaded(held, units); become(next), edit(content, place), undo(), settle(), remember(content) and
 * restart() change the state; asked(call, given) asks the engine, and trouble(text) says what went
 * wrong.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk, units } = calculator;
  const { state: states, view, keeping, files, modes, checking, survey, report, card, review, edits } = dataSheet;
  const root = document.getElementById("data-sheet");
  const shape = view.shapeOf(root);
  let state = states.started(shape);

  const own = {
    root, shape, state: () => state, system: units.current, isBusy: () => surveyed.isBusy(),
    held, loaded, become, edit, undo, settle, remember, restart, asked, failed, trouble,
    replaced: (sheet, origin) => reviewed.replaced(sheet, origin),
  };
  const kept = keeping.of(own);
  const filed = files.of(own);
  const checks = checking.of(own);
  const surveyed = survey.of(own, filed);
  const reported = report.of(own, filed, surveyed);
  const reviewed = review.of(own, filed, surveyed);
  const carded = card.of(own, filed, surveyed);
  const offered = modes.of(own);
  const { changeRows, goOn } = edits.of(own);
  const acts = {
    save: filed.save, undo, blank, delete: kept.clear,
    survey: surveyed.compute, stop: surveyed.stop,
    report: reported.save, reportMarkdown: reported.save, print: reported.print, quote: reported.quote,
    card: carded.open, printCard: carded.print, saveCard: carded.save, closeCard: carded.close,
    review: reviewed.compute, endReview: reviewed.stop, saveReview: reviewed.save,
    takeModes: offered.take, leaveModes: offered.leave,
    add: changeRows, raise: changeRows, lower: changeRows, remove: changeRows, next: goOn,
  };

  kept.start();
  filed.isFiled();
  show();
  root.addEventListener("click", onClick);
  root.addEventListener("focusin", () => engine.start().catch(failed), { once: true });
  document.addEventListener("units", show);
  addEventListener("beforeprint", openAll);
  root.classList.add("live");
  offered.look();

  function show() {
    view.show(root, shape, state, units.current());
    surveyed.tell();
  }

  function held() {
    return states.held(state.content, shape);
  }

  function loaded(sheet, chosen) {
    return states.loaded(sheet, shape, units.current(), chosen);
  }

  /** The one place where the content changes. */
  function become(next, { keep = true } = {}) {
    if (next.content === state.content) return;
    state = next;
    show();
    if (keep) kept.keep();
    checks.soon();
  }

  function edit(content, place = null) {
    if (content !== state.content) become(states.edited(state, content, place));
  }

  function undo() {
    become(states.undone(state));
    trouble("");
  }

  /** A field was left; what comes letter by letter from another tab stays one edit. */
  function settle() {
    if (state.place !== keeping.ELSEWHERE) state = states.settled(state);
  }

  function remember(content) {
    state = states.remembered(state, content);
  }

  function blank() {
    filed.take(states.EMPTY, "The sheet is empty now. Undo brings the one before back.");
  }

  /** Begin anew, with nothing to go back to. */
  function restart() {
    surveyed.clear();
    reviewed.clear();
    become({ ...states.started(shape), revision: state.revision + 1 }, { keep: false });
    filed.isFiled();
  }

  async function asked(call, given, key = "sheet") {
    try {
      return await desk.asked(call, given, key);
    } catch (error) {
      failed(error);
      return null;
    }
  }

  /** Say why something failed, unless the reader stopped it. */
  function failed(error) {
    if (!["AbortError", "StopError"].includes(error.name)) trouble(error.message);
  }

  function trouble(text) {
    const line = root.querySelector(".sheet-trouble");
    line.textContent = text;
    line.hidden = !text;
  }

  function openAll() {
    for (const part of root.querySelectorAll("details")) part.open = true;
  }

  function onClick({ target }) {
    const pressed = target.closest("button");
    if (!pressed || pressed.getAttribute("aria-disabled") === "true") return;
    if (pressed.dataset.example) filed.example(pressed);
    else acts[pressed.dataset.do]?.(pressed);
  }
});
