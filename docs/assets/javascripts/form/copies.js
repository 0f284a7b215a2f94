/* Copies of the result of a form for the clipboard, and its figure as files.
 *
 * `own` is the form: request() and fragment(); `result` is its result.
 */
(globalThis.calculator ??= {}).copies = (() => {
  "use strict";

  const { problems, desk } = calculator;

  function of(own, result) {
    const { form, shape } = own;
    return { copyAs, saveFigure };

    async function copyAs(pressed) {
      const kind = pressed.dataset.copy;
      const address = `${location.href.split("#")[0]}#${own.fragment()}`;
      const working = form.querySelector("[data-working]").checked;
      const copies = { ...own.request(), link: address, working };
      const found = await result.problemsNow();
      if (!found) return;
      if (found.length > 0) return problems.show(form, found, true);
      const text = kind === "link" ? address : (await result.made("form.copying.copies", copies))?.[kind];
      if (text === undefined) return;
      await desk.toClipboard(text);
      desk.flash(pressed, "copied");
    }

    async function saveFigure(kind) {
      const type = kind === "svg" ? "image/svg+xml" : "text/csv";
      const files = await result.made("form.answer.figure_files", own.request());
      if (files?.[kind]) desk.download(files[kind], `${shape.name}.${kind}`, type);
    }
  }

  return { of };
})();
