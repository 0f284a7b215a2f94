// What the page does besides its forms: menu, colours, boxes that scroll, folds.
document.documentElement.classList.replace("no-js", "js");

const SCROLLING = ".scroll-box, .step, pre code";
const sizes = new ResizeObserver((entries) => {
  for (const { target } of entries) {
    const scrolls = target.scrollWidth > target.clientWidth;
    target.classList.toggle("scrolls", scrolls);
    if (scrolls) target.tabIndex = 0;
    else target.removeAttribute("tabindex");
  }
});
const observe = (root) => root.querySelectorAll(SCROLLING).forEach((box) => sizes.observe(box));
observe(document);
new MutationObserver((changes) => {
  for (const target of new Set(changes.map((change) => change.target))) observe(target);
}).observe(document.querySelector("article"), { childList: true, subtree: true });

// The menu: its labels are pressed by keyboard too, and the page one reads is in view in it.
for (const opener of document.querySelectorAll("label[role=button], label[tabindex]")) {
  opener.addEventListener("keydown", (event) => {
    if (event.key !== " " && event.key !== "Enter") return;
    event.preventDefault();
    opener.click();
  });
}
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape") document.querySelector("#__drawer").checked = false;
});
const menu = document.querySelector(".md-sidebar__scrollwrap");
const here = menu?.querySelector(".md-nav__link--active");
if (here) menu.scrollTop = here.offsetTop - menu.clientHeight / 3;

// The colours: the system's, light or dark; the label beside the choice in force leads to the next.
const choices = [...document.querySelectorAll("[name=__palette]")];
const isLight = matchMedia("(prefers-color-scheme: light)");
const read = () => {
  try {
    return __md_get("__palette");
  } catch {
    return null; // storage is denied
  }
};
const colour = (choice) => {
  const followed = choices[choice.dataset.mdColorMedia === "(prefers-color-scheme)" ? (isLight.matches ? 1 : 2) : choices.indexOf(choice)];
  document.body.dataset.mdColorScheme = followed.dataset.mdColorScheme;
  for (const each of choices) each.nextElementSibling.hidden = each !== choice;
  choice.checked = true;
};
for (const choice of choices) {
  choice.addEventListener("change", () => {
    const { mdColorMedia: media, mdColorScheme: scheme } = choice.dataset;
    colour(choice);
    __md_set("__palette", { index: choices.indexOf(choice), color: { media, scheme } });
  });
}
isLight.addEventListener("change", () => colour(choices.find((choice) => choice.checked)));
colour(choices[read()?.index ?? 0] ?? choices[0]);

// A place inside a fold is shown; folded text is printed.
const named = (fragment) => {
  try {
    return decodeURIComponent(fragment);
  } catch {
    return fragment; // of a damaged link
  }
};
const unfold = () => {
  const place = document.getElementById(named(location.hash.slice(1)));
  for (let fold = place?.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
};
unfold();
addEventListener("hashchange", unfold);
const folds = () => document.querySelectorAll("details:not([open])");
addEventListener("beforeprint", () => {
  for (const fold of folds()) {
    fold.open = true;
    fold.dataset.closedOnScreen = "";
  }
});
addEventListener("afterprint", () => {
  for (const fold of document.querySelectorAll("[data-closed-on-screen]")) {
    fold.open = false;
    delete fold.dataset.closedOnScreen;
  }
});
