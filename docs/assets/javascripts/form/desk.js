/* What forms share with the page and the browser: engine, address, keyboard, clipboard. */
(globalThis.calculator ??= {}).desk = (() => {
  "use strict";

  const { link } = calculator;
  const PAUSE = 600; // ms after the last change before the address follows
  const TYPING = 1000; // ms between the letters of one word that chooses an option
  const UPPER = 0.6; // of the window, in which a form may begin that a link fills
  let addressing;
  let typing = { word: "", at: 0 };

  /** Return the value that the engine answers a call with. */
  async function asked(call, given, key) {
    const answer = await engine.ask({ call, arguments: given, key });
    if (answer.error) throw new Error(answer.error.message);
    return answer.value;
  }

  function same(one, other) {
    return JSON.stringify(one) === JSON.stringify(other);
  }

  /** Whether the reader is at no field or button. */
  function isIdle() {
    return [document.body, null].includes(document.activeElement);
  }

  function safely(action) {
    try {
      return action();
    } catch {
      return null;
    }
  }

  /* ---- the address ---- */

  /** Alone on its page a form needs no prefix in its links. */
  function prefix(form) {
    return document.querySelectorAll("form.calculator").length === 1 ? "" : `${form.dataset.name}.`;
  }

  /** Give the numbers in the address to the forms they are for, now and when the address changes. */
  function openLinks(forms) {
    const open = () => {
      const fragment = link.received(location.hash);
      if (!fragment.includes("=") || forms.length === 0) return;
      const shapes = forms.map(({ shape }) => shape);
      const opened = link.opened(fragment, shapes);
      for (const one of opened) forms[shapes.indexOf(one.form)].open(one);
      return forms[shapes.indexOf(opened[0].form)].form;
    };
    const shown = open();
    // A browser may not say yet how it came here.
    const way = performance.getEntriesByType("navigation")[0]?.type;
    if (shown && way !== "reload" && way !== "back_forward" && stoodAt(0)) bring(shown);
    addEventListener("hashchange", () => {
      const changed = open();
      if (changed) reveal(changed);
    });
  }

  /** Bring a form into the window, and again at "load", since what comes late makes the page above
   *  it grow; a reader who has scrolled or gone to a field meanwhile is left there. */
  function bring(form) {
    reveal(form);
    const stays = scrollY;
    // Once it was brought it begins at the head of the window.
    const share = stoodAt(0) ? UPPER : 0;
    const again = () => isIdle() && stoodAt(stays) && reveal(form, share);
    addEventListener("load", again, { once: true });
  }

  /** Whether the window stands where it stood, to the rounding of its scale. */
  function stoodAt(place) {
    return Math.abs(scrollY - place) < 2; // px
  }

  /** Bring a form into the window, unless it begins in the upper share of it. */
  function reveal(form, share = UPPER) {
    const { top } = form.getBoundingClientRect();
    if (top < 0 || top > share * innerHeight) form.scrollIntoView({ block: "start", behavior: "instant" });
  }

  /** The address holds the numbers of the forms that a link filled, as they are now. */
  function keepAddress(forms) {
    clearTimeout(addressing);
    addressing = setTimeout(() => {
      const linked = forms.filter((one) => one.state().origin === "link");
      const isChanged = ({ touched, undone }) => touched || undone;
      if (linked.length > 0 && !linked.some((one) => isChanged(one.state()))) return;
      const wanted = linked.map((one) => one.fragment()).join("&");
      if (!wanted && !location.hash.includes("=")) return;
      const address = `${location.href.split("#")[0]}${wanted && "#"}${wanted}`;
      safely(() => history.replaceState(history.state, "", address));
    }, PAUSE);
  }

  /* ---- keyboard, clipboard, files ---- */

  /** Whether a key was pressed with which a reader takes back an edit. */
  function isUndo({ key, ctrlKey, metaKey, shiftKey, altKey }) {
    return (ctrlKey || metaKey) && !shiftKey && !altKey && key.toLowerCase() === "z";
  }

  /** Ask once more before what cannot be undone: the first press of a button changes its words. */
  function isSure(pressed, words) {
    const { first } = pressed.dataset;
    if (first === undefined) pressed.dataset.first = pressed.textContent;
    else delete pressed.dataset.first;
    pressed.textContent = first ?? words;
    return first !== undefined;
  }

  /** Choose an option of a list by the beginning of any of its words. */
  function chooseByTyping(event) {
    const list = event.target;
    if (event.key.length !== 1 || event.ctrlKey || event.metaKey || event.altKey) return;
    const goesOn = event.timeStamp - typing.at < TYPING && typing.list === list;
    if (event.key === " " && !goesOn) return; // opens the list
    const word = (goesOn ? typing.word : "") + event.key.toLowerCase();
    typing = { list, word, at: event.timeStamp };
    event.preventDefault();
    const options = [...list.options];
    const begins = ({ text }) => text.toLowerCase().startsWith(word);
    const inside = ({ text }) => text.toLowerCase().includes(` ${word}`);
    const first = list.selectedIndex + (word.length === 1 ? 1 : 0); // a letter again goes on to the next
    const order = [...options.slice(Math.max(first, 0)), ...options.slice(0, Math.max(first, 0))];
    const found = order.find(begins) ?? order.find(inside);
    if (!found || found.selected) return;
    list.value = found.value;
    list.dispatchEvent(new Event("input", { bubbles: true }));
    list.dispatchEvent(new Event("change", { bubbles: true }));
  }

  /** Put a text, or the promise of one, on the clipboard; return whether it is there.
   *
   * A browser takes a promise while the reader's press is fresh, and a text no more some seconds after. */
  async function toClipboard(text) {
    try {
      await navigator.clipboard.write([new ClipboardItem({ "text/plain": blobOf(text) })]);
      return true;
    } catch {
      // Without a clipboard, as on a plain-http intranet, the older way is taken.
    }
    try {
      return selectedAndCopied(await text);
    } catch {
      return false; // there is no text
    }
  }

  async function blobOf(text) {
    return new Blob([await text], { type: "text/plain" });
  }

  function selectedAndCopied(text) {
    const area = document.createElement("textarea");
    area.value = text;
    document.body.append(area);
    area.select();
    const copied = document.execCommand("copy");
    area.remove();
    return copied;
  }

  function flash(pressed, word) {
    pressed.dataset.label ??= pressed.textContent;
    pressed.textContent = word;
    setTimeout(() => (pressed.textContent = pressed.dataset.label), 1500);
  }

  function download(text, file, type) {
    const made = document.createElement("a");
    made.href = URL.createObjectURL(new Blob([text], { type }));
    made.download = file;
    made.click();
    URL.revokeObjectURL(made.href);
  }

  return {
    asked, same, isIdle, prefix, openLinks, keepAddress,
    isUndo, isSure, chooseByTyping, toClipboard, flash, download,
  };
})();
