/* Reading a file into the engine, piece by piece: progress, stop, and once more where it was lost.
 *
 * The engine holds the one record.  Where it was started again, after a stop or a calculation that
 * took too long, the record is gone with it; the file is then read again by itself, and the page says
 * so.
 *
 * `own` is the desk, as desk.js makes it.
 */
(() => {
  "use strict";

  function of(own) {
    const { root, setup } = own;
    const bar = root.querySelector("progress");
    const line = root.querySelector(".record-progress");
    let run = null; // {file, entries, encoding, stopped, done}: the reading that is under way or done
    let isThere = false; // whether the engine has the record

    document.addEventListener("engine:progress", ({ detail }) => {
      if (detail.state === "starting" && isThere) lose();
      if (run && !run.done && detail.state !== "ready") say(`${detail.text} …`);
    });
    return { read, stop, doubt, isThere: () => isThere };

    /** Read the chosen file with what its fields say. */
    function read() {
      const chosen = setup.chosen();
      if (chosen) return go({ ...chosen, entries: setup.entries() });
    }

    async function go(next, why = "") {
      if (run) run.stopped = true;
      run = next;
      isThere = false;
      if (!why) own.cleared();
      show(0, why);
      try {
        await own.ask("record.opening.begun", { entries: next.entries, name: next.file.name }, "record");
        for await (const { text, read: bytes, last } of recordDesk.pieces.piecesOf(next.file, next.encoding)) {
          if (next.stopped) return;
          const { questions } = await own.ask("measurement.desk.feed", { text: "", last }, "record", text);
          if (questions.length > 0) throw new Error(questions.map((one) => one.text).join(" "));
          show(bytes / next.file.size, why);
        }
        if (next.stopped) return;
        const told = await own.ask("record.told.told", {}, "record");
        if (next.stopped) return;
        isThere = true;
        next.done = true;
        own.opened(told);
        say(`${why}${told.words}`);
      } catch (error) {
        next.done = true;
        if (!next.stopped) own.failed(error);
        say("");
      } finally {
        if (run === next) tell();
      }
    }

    /** Stop reading; what was read of the file is dropped, so that no part is taken for the whole. */
    function stop() {
      if (!run || run.done) return;
      run.stopped = true;
      say("Stopped: the file was not read to its end, and nothing of it is kept.");
      tell();
    }

    /** The fields of the file were changed; what was read of it stays until it is read again. */
    function doubt() {
      if (isThere) say("The fields above were changed since the file was read: read it again.");
    }

    /** The engine is starting anew, and must have begun before it is asked again. */
    function lose() {
      isThere = false;
      setTimeout(() => go({ ...run, done: false }, "The calculator was started again and has lost the record; the file is read again. "));
    }

    function show(share, why) {
      bar.value = share;
      say(`${why}Reading ${run.file.name}: ${Math.floor(100 * share)} %`);
      tell();
    }

    function say(text) {
      if (line.textContent !== text) line.textContent = text;
    }

    function tell() {
      const isBusy = Boolean(run) && !run.done && !run.stopped;
      bar.hidden = !isBusy;
      root.querySelector("[data-do=stop]").hidden = !isBusy;
    }
  }

  recordDesk.reading = { of };
})();
