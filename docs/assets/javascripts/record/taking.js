/* What is taken away from a view: its result as text, as Markdown, as CSV, its figure as a file.
 *
 * `own` is the desk, as desk.js makes it; `views` are its views.
 */
(() => {
  "use strict";

  const TYPES = { csv: "text/csv", svg: "image/svg+xml" };

  function of(own, views) {
    const { desk } = calculator;
    return { copy, save };

    async function copy(pressed) {
      const copied = await desk.toClipboard(made(pressed, pressed.dataset.kind));
      desk.flash(pressed, copied ? "copied" : "not copied");
    }

    async function save(pressed) {
      const { save: kind } = pressed.dataset;
      try {
        const { view } = pressed.closest(".record-view").dataset;
        desk.download(await made(pressed, kind), `${view}.${kind}`, TYPES[kind]);
      } catch (error) {
        own.failed(error);
      }
    }

    /** Return a copy of the view that a button belongs to, of its entries as they are now. */
    async function made(pressed, kind) {
      const box = pressed.closest(".record-view");
      return own.ask("record.views.taken", { ...views.request(box), kind }, `record ${kind}`);
    }
  }

  recordDesk.taking = { of };
})();
