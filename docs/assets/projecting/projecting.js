/* A figure or a form over the whole window, in type that is read from the back of a room.
 *
 * Escape, or the button that opened it, brings it back to its place, and the reader with it.
 */
globalThis.projecting = (() => {
  "use strict";

  const READABLE = 22; // px of the smallest lettering of a figure, where the window is wide enough
  const CAUTION = "article > :is(.admonition.danger, .admonition.warning)";

  /** Show a part of the page over the whole window, or bring it back. */
  function toggle(shown, button) {
    if (shown.parentElement.matches("dialog.enlarged")) return shown.parentElement.close();
    const words = button.textContent;
    const place = [scrollX, scrollY];
    const dialog = document.createElement("dialog");
    dialog.className = "enlarged";
    dialog.setAttribute("aria-label", nameOf(shown));
    shown.before(dialog);
    dialog.append(shown);
    button.textContent = "Close";
    dialog.showModal();
    const steps = shown.matches(".stepped") && projecting.steps(shown, dialog, button);
    const fitted = fit(shown);
    const cautions = caution(shown);
    (steps || button).focus();
    dialog.addEventListener("close", end);
    addEventListener("beforeprint", end);

    function end() {
      removeEventListener("beforeprint", end);
      if (!dialog.isConnected) return; // brought back already, or replaced by another result
      if (dialog.open) dialog.close();
      fitted.disconnect();
      for (const svg of drawings(shown)) svg.style.width = "";
      cautions.forEach((part) => part.remove());
      dialog.dispatchEvent(new Event("end"));
      button.textContent = words;
      dialog.replaceWith(shown);
      scrollTo({ left: place[0], top: place[1], behavior: "instant" });
      button.focus({ preventScroll: true });
    }
  }

  function nameOf(shown) {
    return shown.querySelector("svg title, .calculator-title, h2")?.textContent ?? "";
  }

  /** Show the caution of the page in a form: its title in the head, which stays in view, and its text. */
  function caution(form) {
    const head = form.querySelector(":scope > .calculator-head");
    const box = head && document.querySelector(CAUTION);
    if (!box) return [];
    const [title, ...text] = box.cloneNode(true).children;
    const [above, below] = ["caution-title", "caution-text"].map((kind) => {
      const part = box.cloneNode(false);
      part.classList.add(kind);
      return part;
    });
    above.append(title);
    below.append(...text);
    head.append(above);
    head.after(below);
    return [above, below];
  }

  /** Return the drawings of a figure that are shown: one, or sheets side by side. */
  function drawings(figure) {
    const all = figure.querySelectorAll(":scope > .scroll-box > svg, :scope > .sheets > .sheet > svg");
    return [...all].filter((svg) => svg.getClientRects().length > 0);
  }

  /** Keep a figure as large as its box, and so large that its lettering can be read. */
  function fit(figure) {
    const watch = new ResizeObserver(([{ target }]) => scale(drawings(figure), target));
    const box = figure.querySelector(":scope > :is(.scroll-box, .sheets)");
    if (box) watch.observe(box);
    return watch;
  }

  /** Many panels do not fit: they are as wide as the window, and what stands below is scrolled to. */
  function scale(svgs, { clientWidth, clientHeight }) {
    const boxes = svgs.map((svg) => svg.viewBox.baseVal);
    const widest = clientWidth / boxes.reduce((sum, { width }) => sum + width, 0);
    const whole = clientHeight / Math.max(...boxes.map(({ height }) => height));
    const least = READABLE / Math.min(...svgs.map(smallest));
    const wanted = whole < least && svgs[0].querySelector("svg") ? widest : Math.max(whole, least);
    svgs.forEach((svg, n) => (svg.style.width = `${Math.ceil(Math.min(wanted, widest) * boxes[n].width)}px`));
  }

  /** Return the size of the smallest lettering of a drawing, in its units. */
  function smallest(svg) {
    const sizes = [...svg.querySelectorAll("text")].map((text) => parseFloat(getComputedStyle(text).fontSize));
    return Math.min(...sizes, 16);
  }

  return { toggle };
})();
