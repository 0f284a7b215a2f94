/* A figure step by step: what appears or goes with each step, and a sentence that says what is new.
 *
 * Nothing moves by itself. The keys of a presenter's remote are Page Down and Page Up.
 */
(() => {
  "use strict";

  const BY = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1, Home: -Infinity, End: Infinity };

  /** Show the first step of an enlarged figure and give it its buttons; return the one to go on. */
  projecting.steps = (figure, dialog, closer) => {
    const captions = [...figure.querySelectorAll(".steps > li")];
    const parts = [...figure.querySelectorAll("[data-from], [data-until]")];
    const bar = document.createElement("div");
    const said = Object.assign(document.createElement("p"), { className: "step-said" });
    const count = Object.assign(document.createElement("span"), { className: "step-count" });
    const [back, on] = [button("Back", -1), button("Next", 1)];
    bar.className = "step-bar";
    said.setAttribute("aria-live", "polite");
    bar.append(said, count, back, on);
    figure.querySelector("figcaption").append(bar);
    bar.append(closer);
    const home = figure.querySelector("figcaption > ol");
    let shown = 0;

    function show(number) {
      shown = Math.min(Math.max(number, 1), captions.length);
      for (const part of parts) {
        const { from = 1, until = Infinity } = part.dataset;
        if (from <= shown && shown <= until) part.removeAttribute("visibility");
        else part.setAttribute("visibility", "hidden");
      }
      count.textContent = `${shown} of ${captions.length}`;
      said.textContent = captions[shown - 1].textContent;
      back.setAttribute("aria-disabled", String(shown === 1));
      on.setAttribute("aria-disabled", String(shown === captions.length));
    }

    function button(textContent, by) {
      const made = Object.assign(document.createElement("button"), { type: "button", textContent });
      made.addEventListener("click", () => show(shown + by));
      return made;
    }

    dialog.addEventListener("keydown", (event) => {
      if (!(event.key in BY) || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      show(shown + BY[event.key]);
    });
    dialog.addEventListener("end", () => {
      show(captions.length);
      home.before(closer);
      bar.remove();
    });
    show(1);
    return on;
  };
})();
