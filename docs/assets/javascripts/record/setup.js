/* What a file holds: guessed from its beginning, shown in fields, and changed by the reader.
 *
 * The fields are made by Python of the beginning of the file and of what the reader has changed so
 * far; a change is looked at anew, so that names and first values always are those that will be read.
 *
 * `own` is the desk, as desk.js makes it.
 */
(() => {
  "use strict";

  function of(own) {
    const { root } = own;
    const box = root.querySelector(".record-setup");
    const fields = box.querySelector(".record-columns");
    const picker = root.querySelector("[type=file]");
    let chosen = null; // {file, text, encoding}
    let changed = {}; // what the reader entered, by the name of its field

    picker.addEventListener("change", () => open(picker.files[0]));
    picker.addEventListener("click", () => (picker.value = "")); // so that the same file can be chosen again
    picker.addEventListener("cancel", show);
    root.addEventListener("dragover", (event) => {
      if ([...event.dataTransfer.types].includes("Files")) event.preventDefault();
    });
    root.addEventListener("drop", (event) => {
      const [file] = event.dataTransfer.files;
      if (!file) return;
      event.preventDefault();
      open(file);
    });
    fields.addEventListener("input", ({ target }) => {
      changed = { ...changed, [target.name]: target.value };
    });
    fields.addEventListener("change", () => {
      own.doubted();
      look();
    });
    return { open, example, chosen: () => chosen, entries };

    /** Look into a file, and read it where nothing has to be asked. */
    async function open(file) {
      if (!file) return;
      own.trouble("");
      try {
        chosen = { file, ...(await recordDesk.pieces.headOf(file)) };
      } catch (error) {
        return own.trouble(error.message);
      } finally {
        show();
      }
      changed = {};
      box.hidden = false;
      box.querySelector(".record-file").textContent = `${file.name}, ${sizeOf(file)}`;
      if (await look()) own.read();
    }

    /** Let the picker name the record, wherever it came from. */
    function show() {
      const held = new DataTransfer();
      if (chosen) held.items.add(chosen.file);
      picker.files = held.files;
    }

    /** Make the example in the engine and open it as if it were a file. */
    async function example(pressed) {
      const made = await own.asked("record.opening.example", { key: pressed.dataset.example }, "record setup");
      if (made) await open(new File([made.text], made.name, { type: "text/csv" }));
    }

    /** Show what the file is taken to hold; return whether it can be read so. */
    async function look() {
      const { text, whole } = chosen;
      const asked = changed;
      const found = await own.asked("record.opening.guessed", { text: "", whole, changed }, "record setup", text);
      if (!found) return false;
      if (asked !== changed) return look(); // typed meanwhile: the fields would lose it
      renew(found.html);
      root.querySelector("[data-do=read]").setAttribute("aria-disabled", String(!found.readable));
      return found.readable;
    }

    /** Make the fields anew; the one that has the focus keeps it, and the cursor its place. */
    function renew(html) {
      const { name, selectionStart: at } = fields.contains(document.activeElement) ? document.activeElement : {};
      fields.innerHTML = html;
      const field = name && fields.querySelector(`[name="${CSS.escape(name)}"]`);
      field?.focus();
      if (Number.isInteger(at)) field?.setSelectionRange(at, at);
    }

    /** Return what the fields hold now, by name. */
    function entries() {
      return changed;
    }
  }

  function sizeOf({ size }) {
    return size < 1e6 ? `${Math.ceil(size / 1e3)} kB` : `${(size / 1e6).toFixed(1)} MB`;
  }

  recordDesk.setup = { of };
})();
