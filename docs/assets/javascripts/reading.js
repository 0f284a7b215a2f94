// Boxes that scroll can be reached by keyboard, and folded text is printed.
const boxes = new ResizeObserver((entries) => {
  for (const { target } of entries) {
    target.classList.toggle("scrolls", target.scrollWidth > target.clientWidth);
    if (target.classList.contains("scrolls")) target.tabIndex = 0;
    else target.removeAttribute("tabindex");
  }
});
for (const box of document.querySelectorAll(".scroll-box")) boxes.observe(box);

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
