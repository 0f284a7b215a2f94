/* The home page: the forms that the reader used last on this machine, nothing where there are none;
 * and links to a form that stood there once, which go on to the page where it is now. */
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

  const moved = document.querySelector(".moved-form");
  if (moved && location.hash.includes("=")) {
    const keys = location.hash.slice(1).split("&");
    const whole = keys.map((key) => (key.startsWith(`${moved.id}.`) ? key : `${moved.id}.${key}`));
    location.replace(`${moved.href}#${whole.join("&")}`);
  }
})();
