/* The forms that the reader used last on this machine, on the home page; nothing where there are none. */
(() => {
  "use strict";

  const { fleet } = calculator;
  const box = document.querySelector(".recent-forms");
  if (!box) return;

  function show() {
    const forms = fleet.recent();
    box.querySelector("ul").replaceChildren(...forms.map(item));
    box.hidden = forms.length === 0;
  }

  function item({ page, name, title }) {
    const link = Object.assign(document.createElement("a"), { href: `${page}#${name}`, textContent: title });
    const made = document.createElement("li");
    made.append(link);
    return made;
  }

  box.querySelector("button").addEventListener("click", () => {
    fleet.forget();
    document.querySelector("h1").tabIndex = -1;
    document.querySelector("h1").focus({ preventScroll: true }); // the button is gone
  });
  document.addEventListener("fleet", show);
  for (const event of ["storage", "pageshow"]) addEventListener(event, show);
  show();
})();
