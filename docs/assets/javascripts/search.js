/* The search in the header: loads what it needs when it is first used. */
(() => {
  "use strict";

  const box = document.querySelector(".find");
  if (!box) return;
  const field = box.querySelector("input");
  const hits = box.querySelector(".find-hits");
  const said = box.querySelector("[role=status]");
  const list = box.querySelector("ol");
  const opener = box.querySelector(".find-open");
  const folder = new URL("../search/", document.currentScript.src).href;
  const home = new URL("../../", folder).href;
  let loading;

  field.addEventListener("focus", () => {
    ready().catch(failed);
    if (field.value.trim()) show(true);
  });
  field.addEventListener("input", answer);
  box.addEventListener("keydown", onKey);
  box.addEventListener("submit", (event) => {
    event.preventDefault();
    list.querySelector("a")?.click();
  });
  opener.addEventListener("click", () => open());
  document.addEventListener("pointerdown", (event) => box.contains(event.target) || close());
  box.addEventListener("focusout", (event) => event.relatedTarget && !box.contains(event.relatedTarget) && close());
  document.addEventListener("keydown", (event) => {
    const typing = event.target.closest("input, select, textarea, [contenteditable]");
    if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) {
      event.preventDefault();
      open();
    }
  });
  for (const button of document.querySelectorAll("[data-open-search]")) {
    button.addEventListener("click", () => open());
  }

  function open() {
    box.classList.add("find-opened");
    opener.setAttribute("aria-expanded", "true");
    field.focus();
    field.select();
  }

  function close() {
    box.classList.remove("find-opened");
    opener.setAttribute("aria-expanded", "false");
    show(false);
  }

  function show(shown) {
    hits.hidden = !shown;
    field.setAttribute("aria-expanded", String(shown));
  }

  /** Load the library, the rules of finding and the pages; each is a script, which works from disk. */
  function ready() {
    loading ??= Promise.all(["minisearch.js", "find.js", "pages.js"].map((name) => load(folder + name)))
      .then(() => handbookFinder(MiniSearch, window.handbookPages))
      .catch((error) => {
        loading = null;
        throw error;
      });
    return loading;
  }

  function load(address) {
    return new Promise((resolve, reject) => {
      const script = document.createElement("script");
      script.src = address;
      script.onload = resolve;
      script.onerror = () => {
        script.remove();
        reject(new Error(`The search did not start: cannot load ${address}`));
      };
      document.head.append(script);
    });
  }

  async function answer() {
    const question = field.value.trim();
    if (!question) return show(false);
    try {
      const find = await ready();
      if (question !== field.value.trim()) return;
      tell(find(question), question);
    } catch (error) {
      failed(error);
    }
  }

  function tell(found, question) {
    list.replaceChildren(...found.map(item));
    const count = found.length === 1 ? "1 page" : `${found.length} pages`;
    said.textContent = found.length > 0 ? `${count} found` : `Nothing found for “${question}”`;
    show(true);
  }

  function item({ page, place }) {
    const made = document.createElement("li");
    const link = document.createElement("a");
    const text = (tag, kind, content) => {
      const part = document.createElement(tag);
      part.className = kind;
      part.textContent = content;
      return part;
    };
    link.href = `${home}${page.address}${place?.anchor ? `#${place.anchor}` : ""}`;
    link.append(text("span", "find-title", page.title), text("span", "find-chapter", page.chapter));
    const excerpt = place && [place.anchor ? place.title : "", place.text.slice(0, 140)].filter(Boolean).join(": ");
    if (excerpt) link.append(text("span", "find-excerpt", excerpt));
    made.append(link);
    return made;
  }

  function failed(error) {
    list.replaceChildren();
    said.textContent = error.message;
    show(true);
  }

  function onKey(event) {
    if (event.key === "Escape") {
      event.preventDefault(); // what was typed stays
      field.focus();
      close();
    }
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!step || hits.hidden) return;
    event.preventDefault();
    const stops = [field, ...list.querySelectorAll("a")];
    stops[(stops.indexOf(document.activeElement) + step + stops.length) % stops.length].focus();
  }
})();
