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
      const copied = await desk.toClipboard(textOf(pressed.dataset.copy));
      desk.flash(pressed, copied ? "copied" : "not copied");
    }

    /** Return the copy of the entries as they are now; it waits for their answer, and fails without one. */
    async function textOf(kind) {
      const { revision } = own.state();
      const address = `${location.href.split("#")[0]}#${own.fragment()}`;
      const asked = { ...own.request(), link: address };
      const found = await result.problemsNow();
      if (found?.length > 0) problems.show(form, found, true);
      const isOvertaken = !found && own.state().revision !== revision; // by later entries
      const hasResult = found?.length === 0 || isOvertaken;
      if (!hasResult) throw new Error("no result");
      if (kind === "link") return (await result.made("form.quoting.linked", asked)) ?? address;
      const working = form.querySelector("[data-working]").checked;
      const text = (await result.made("form.copying.copies", { ...asked, working }))?.[kind];
      if (text === undefined) throw new Error("no copy");
      return text;
    }

    async function saveFigure(kind) {
      const type = kind === "svg" ? "image/svg+xml" : "text/csv";
      const files = await result.made("form.answer.figure_files", own.request());
      if (files?.[kind]) desk.download(files[kind], `${shape.name}.${kind}`, type);
    }
  }

  return { of };
})();
