/* The ground-run card of a data sheet, shown as it will be printed.  Frame, paper and file hold the
 * same bytes, and those are of the sheet as it stands: with any change of it the card is gone.
 *
 * `own` is the sheet, as sheet.js makes it; `files` gives its text, `survey` what was computed.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;

  function of(own, files, survey) {
    const { root } = own;
    const panel = root.querySelector(".sheet-card");
    const line = panel.querySelector("[role=status]");
    let card = null; // {content, page}; without a page while it is made

    root.addEventListener("survey:told", tell);
    document.addEventListener("keydown", ({ key }) => key === "Escape" && card && !card.page && close());
    return { open, print: printed, save, close };

    async function open() {
      const mine = { content: own.state().content, page: "" };
      const text = survey.whole() && (await files.text("There is no card yet. Put this right first:"));
      if (!text) return;
      card = mine;
      show("Making the card … (Esc stops it)");
      const page = await own.asked("survey.asking.carded", { text }, "survey");
      if (card !== mine) return;
      if (!page) return close();
      card.page = page;
      show("");
      panel.focus();
    }

    function show(words) {
      panel.hidden = false;
      line.textContent = words;
      panel.querySelector("iframe")?.remove();
      for (const button of panel.querySelectorAll("[data-page]")) button.hidden = !card.page;
      if (!card.page) return;
      const frame = Object.assign(document.createElement("iframe"), { srcdoc: card.page });
      frame.title = "Ground-run card, as it will be printed";
      panel.append(frame);
    }

    /** A card of a sheet that has changed, or whose survey is not whole any more, is no card. */
    function tell() {
      if (card && (card.content !== own.state().content || !survey.whole())) close();
    }

    function close() {
      if (!card.page) engine.stop("survey");
      card = null;
      panel.hidden = true;
      panel.querySelector("iframe")?.remove();
    }

    function printed() {
      panel.querySelector("iframe").contentWindow.print();
    }

    function save() {
      desk.download(card.page, `${files.name()}_ground_run_card.html`, "text/html");
    }
  }

  dataSheet.card = { of };
});
