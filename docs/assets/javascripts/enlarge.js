// A button at each figure that shows it as large as the window, for a projector; Escape ends it.
(() => {
  "use strict";

  function prepare(root) {
    for (const figure of root.querySelectorAll("figure:has(> .scroll-box > svg)")) {
      if (figure.querySelector(".enlarge")) continue;
      const button = document.createElement("button");
      button.type = "button";
      button.className = "enlarge";
      button.textContent = "Enlarge";
      button.addEventListener("click", () => toggle(figure, button));
      const caption = figure.querySelector("figcaption");
      caption.insertBefore(button, caption.querySelector("details"));
    }
  }

  function toggle(figure, button) {
    const open = figure.closest("dialog");
    if (open) return open.close();
    const dialog = document.createElement("dialog");
    dialog.className = "enlarged";
    dialog.setAttribute("aria-label", figure.querySelector("svg title")?.textContent ?? "Figure");
    figure.before(dialog);
    dialog.append(figure);
    dialog.addEventListener("close", () => {
      button.textContent = "Enlarge";
      dialog.replaceWith(figure);
      button.focus();
    });
    button.textContent = "Close";
    dialog.showModal();
    button.focus();
  }

  prepare(document);
  document.addEventListener("answer", (event) => prepare(event.target));
})();
