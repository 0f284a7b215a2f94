// A button at each figure, form and exercise that shows it over the whole window, for a projector.
// What does so is loaded when it is first asked for.
(() => {
  "use strict";

  const folder = new URL("../projecting/", document.currentScript.src).href;
  let loading;

  function prepare(root) {
    for (const figure of root.querySelectorAll("figure:has(> .scroll-box > svg, > .sheets)")) {
      if (figure.querySelector(".enlarge")) continue;
      const caption = figure.querySelector("figcaption");
      const words = figure.matches(".stepped") ? "Step by step" : "Enlarge";
      caption.insertBefore(button(figure, "enlarge", words), caption.querySelector("details, ol"));
    }
  }

  function button(shown, kind, textContent) {
    const made = Object.assign(document.createElement("button"), { type: "button", className: kind, textContent });
    made.addEventListener("click", async () => {
      await (loading ??= Promise.all(["projecting.css", "projecting.js", "steps.js"].map(load)));
      projecting.toggle(shown, made);
    });
    return made;
  }

  function load(name) {
    const address = folder + name;
    const isStyle = name.endsWith("css");
    const part = document.createElement(isStyle ? "link" : "script");
    Object.assign(part, isStyle ? { rel: "stylesheet", href: address } : { src: address, async: false });
    document.head.append(part);
    return new Promise((resolve, reject) => Object.assign(part, { onload: resolve, onerror: reject }));
  }

  prepare(document);
  document.addEventListener("answer", (event) => prepare(event.target));
  for (const head of document.querySelectorAll(".calculator-head, section.exercise > div.exercise-tools")) {
    const shown = head.parentElement;
    head.append(button(shown, "enlarge-form", shown.matches("form") ? "Enlarge the form" : "Enlarge"));
  }
})();
