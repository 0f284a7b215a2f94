// Menu and boxes that scroll can be reached by keyboard, and folded text is printed.
const SCROLLING = ".scroll-box, .step";
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

for (const opener of document.querySelectorAll("label[role=button]")) {
  opener.addEventListener("keydown", (event) => {
    if (event.key !== " ") return; // the theme presses a label on Enter
    event.preventDefault();
    opener.click();
  });
}

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
