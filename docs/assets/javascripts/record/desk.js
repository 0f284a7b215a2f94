/* The desk of a record: a file is chosen, read into the engine, and looked at in views.
 *
 * Nothing of a record leaves the browser, and nothing of it is stored.  Each part gets the desk as
 * `own`: {root}; ask(call, given, key, piece) asks the engine and fails with its error, asked(...)
 * says what went wrong instead and returns null; trouble(text) says it.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

    const root = document.getElementById("record");
  const own = { root, ask, asked, failed, trouble, opened, cleared, focusFigure };
  own.isThere = () => reading.isThere();
  own.read = () => reading.read();
  own.doubted = () => reading.doubt();
  own.setup = recordDesk.setup.of(own);
  const reading = recordDesk.reading.of(own);
  const views = recordDesk.views.of(own);
  const zoom = recordDesk.zoom.of(own, views);
  const taking = recordDesk.taking.of(own, views);
  const acts = {
    read: reading.read, stop: reading.stop, example: own.setup.example, stopView: views.stop,
    closer: zoom.closer, wider: zoom.wider, whole: zoom.whole, copy: taking.copy, save: taking.save,
  };
  let focusing = null; // the view whose figure takes the focus when it is drawn anew

  root.addEventListener("click", ({ target }) => {
    const pressed = target.closest("button");
    if (!pressed || pressed.getAttribute("aria-disabled") === "true") return;
    if (pressed.dataset.save) taking.save(pressed);
    else acts[pressed.dataset.do]?.(pressed);
  });
  root.addEventListener("focusin", () => engine.start().catch(failed), { once: true });
  root.addEventListener("answer", ({ target }) => {
    const box = target.closest(".record-view");
    if (box === focusing) setTimeout(() => box.querySelector(".figure-reader")?.focus());
    if (box === focusing) focusing = null;
  });
  root.classList.add("live");

  /** Return the value that the engine answers a call with; an error has its message. */
  async function ask(call, given, key, piece) {
    const answer = await engine.ask({ call, arguments: given, key, piece });
    if (answer.error) throw new Error(answer.error.message);
    return answer.value;
  }

  async function asked(...given) {
    try {
      return await ask(...given);
    } catch (error) {
      failed(error);
      return null;
    }
  }

  function failed(error) {
    if (!["AbortError", "StopError"].includes(error.name)) trouble(error.message);
  }

  function trouble(text) {
    const line = root.querySelector(".record-trouble");
    line.textContent = text;
    line.hidden = !text;
  }

  /** The record is in the engine: say what it is, offer its channels, show the views. */
  function opened({ html, channels }) {
    root.querySelector(".record-told").innerHTML = html;
    for (const list of root.querySelectorAll("[name=channel], [name=stimulus]")) {
      const before = list.value;
      const none = list.dataset.empty ? [new Option(list.dataset.empty, "")] : [];
      list.replaceChildren(...none, ...channels.map(({ key, label }) => new Option(label, key)));
      if (channels.some(({ key }) => key === before)) list.value = before;
    }
    root.querySelector(".record-views").hidden = false;
    views.anew();
  }

  function cleared() {
    trouble("");
    root.querySelector(".record-told").replaceChildren();
    root.querySelector(".record-views").hidden = true;
    views.clear();
  }

  function focusFigure(box) {
    focusing = box;
  }
});
