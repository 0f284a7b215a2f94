/* The files of a data sheet: open one, with a look at what differs before a sheet is replaced; and
 * save one, unless something is wrong with the sheet.
 *
 * `own` is the sheet, as sheet.js makes it.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const { view } = dataSheet;
  const LARGEST = 200_001; // bytes of a file that are looked at; calc/sheet/file.py refuses so many

  function of(own) {
    const { root } = own;
    const compare = root.querySelector(".sheet-compare");
    let filed; // the sheet as it was opened or saved last
    let source = ""; // the name of its file, if one is known

    root.addEventListener("change", ({ target }) => {
      if (target.matches("[type=file]")) open(target.files[0]).finally(() => (target.value = ""));
    });
    root.addEventListener("dragover", (event) => {
      if ([...event.dataTransfer.types].includes("Files")) event.preventDefault();
    });
    root.addEventListener("drop", onDrop);
    return { take, open, example, save, text, name, isFiled };

    function isFiled(called = "") {
      filed = own.held();
      source = called;
    }

    /** The file that the sheet is from, in words; nothing where none is known. */
    function origin() {
      return source && !desk.same(own.held(), filed) ? `${source}, changed since` : source;
    }

    function onDrop(event) {
      const [file] = event.dataTransfer.files;
      if (!file) return;
      event.preventDefault();
      open(file);
    }

    async function open(file) {
      if (file) await openBytes(await file.slice(0, LARGEST).arrayBuffer(), file.name, file.name);
    }

    function example(pressed) {
      const { content } = document.getElementById(`example-${pressed.dataset.example}`);
      return openBytes(new TextEncoder().encode(content.textContent), pressed.textContent);
    }

    async function openBytes(buffer, called, from = "example") {
      const bytes = new Uint8Array(buffer).subarray(0, LARGEST);
      const content = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
      const found = await own.asked("sheet.exchange.file_opened", { content });
      if (!found) return;
      if (!found.sheet) return refuse(found.problems, called);
      const { sheet, changes } = found;
      const told = changes.length > 0 ? `${called} has an older format; read as the present one: ${changes.join("; ")}.` : "";
      const differences = desk.same(own.held(), filed) ? [] : await own.asked("sheet.exchange.compared", { before: own.held(), after: sheet });
      if (differences?.length === 0) take(sheet, told, from);
      else if (differences) askFirst(differences, called, () => take(sheet, told, from));
    }

    function refuse(problems, called) {
      compare.hidden = true;
      const lines = problems.map((problem) => ({ line: 0, field: "", message: inFile(problem) }));
      view.showProblems(root, lines, `${called} was not opened; the sheet here is as it was. In the file:`);
    }

    function inFile({ line, field, message }) {
      return [line ? `line ${line}` : "", field, message].filter(Boolean).join(": ");
    }

    function askFirst(differences, called, replace) {
      const head = `${called} differs from the sheet here, which has changes that are in no file:`;
      view.compare(compare, differences, head, [
        ["Replace the sheet here", replace],
        ["Keep the sheet here", () => (compare.hidden = true)],
      ]);
    }

    /** Put a whole sheet in; Undo brings the one before back. */
    function take(sheet, told = "", from = "") {
      compare.hidden = true;
      view.showProblems(root, [], "");
      own.replaced(own.held(), origin());
      own.edit(own.loaded(sheet));
      isFiled(from);
      own.trouble(told);
    }

    async function save() {
      const now = own.held();
      const made = await text("The sheet is not saved yet. Put this right first:");
      if (made === null) return;
      desk.download(made, `${name()}.toml`, "application/toml");
      filed = now;
      source = `${name()}.toml`;
    }

    /** Return the text of the file of the sheet, or nothing after showing what is wrong with it. */
    async function text(why) {
      const made = await own.asked("sheet.exchange.file_made", { sheet: own.held() });
      if (!made) return null;
      view.showProblems(root, made.problems, made.problems.length > 0 ? why : "");
      return made.problems.length > 0 ? null : made.text;
    }

    /** Return the name of a file of the sheet, without what follows its dot. */
    function name() {
      const { title } = own.state().content;
      return title.toLowerCase().replace(/[^a-z0-9]+/g, "_").replace(/^_+|_+$/g, "") || "data_sheet";
    }
  }

  dataSheet.files = { of };
});
