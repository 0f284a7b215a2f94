/* Exercises: the numbers of a seed, a typed answer and what is to be said of it.
 *
 * The address may name an exercise and its seed, #tip_speed=703.  Nothing is stored anywhere: what a
 * learner typed is gone with the page.
 */
addEventListener("DOMContentLoaded", () => {
  "use strict";

  const { desk } = calculator;
  const LARGEST = 999_999_999;
  const made = new Map([...document.querySelectorAll("section.exercise")].map((root) => [root.id, exercise(root)]));

  addEventListener("hashchange", open);
  document.querySelector("section.exercise")?.parentElement.addEventListener("focusin", start, { once: true });
  open();

  function start() {
    engine.start().catch(() => {}); // told when an answer is wanted
  }

  /** Show the exercise that the address names, with the numbers of its seed. */
  function open() {
    const [key, seed] = location.hash.slice(1).split("=");
    const one = made.get(key);
    if (!one || seed === undefined) return;
    one.show(seed);
    one.root.scrollIntoView({ block: "start", behavior: "instant" });
  }

  function exercise(root) {
    const part = (name) => root.querySelector(`.exercise-${name}`);
    const [field, typed, said] = [part("seed"), part("answer"), part("said")];
    let seed = 1;
    let asking = 0; // the newest request: an older one says nothing any more
    let showing = Promise.resolve(); // the numbers under way: an answer waits for them

    field.addEventListener("change", () => show(field.value));
    field.addEventListener("keydown", ({ key }) => key === "Enter" && show(field.value));
    typed.addEventListener("input", () => say(""));
    root.querySelector("form").addEventListener("submit", (event) => {
      event.preventDefault();
      check();
    });
    root.querySelector("[data-do=other]").addEventListener("click", () => show(1 + Math.floor(9999 * Math.random())));
    root.querySelector("[data-do=link]").addEventListener("click", copyLink);
    return { root, show };

    function say(text, kind = "") {
      asking += 1;
      said.textContent = text;
      said.dataset.kind = kind;
    }

    /** Ask the engine; what comes after something newer is dropped. */
    async function asked(call, given, waiting) {
      say(waiting, "waiting");
      const mine = asking;
      try {
        const value = await desk.asked(call, given, root.id);
        return mine === asking ? value : null;
      } catch (error) {
        if (mine === asking && error.name !== "AbortError") say(`${error.message}.`.replace("..", "."), "problem");
        return null;
      }
    }

    function show(text) {
      return (showing = numbers(text));
    }

    async function numbers(text) {
      const wanted = Number(String(text).trim());
      field.value = text;
      if (!/^\d+$/.test(String(text).trim()) || wanted < 1 || wanted > LARGEST) {
        return say(`The seed is a whole number from 1 to ${LARGEST}.`, "problem");
      }
      if (wanted === seed) field.value = seed;
      if (wanted === seed && said.dataset.kind !== "problem") return;
      const found = await asked("exercises.asking.asked", { key: root.id, seed: wanted }, "Making the numbers …");
      if (!found) return;
      seed = wanted;
      field.value = seed;
      typed.value = "";
      part("question").innerHTML = found.question;
      root.querySelectorAll(".exercise-hints details").forEach((hint, number) => {
        hint.open = false;
        hint.querySelector("p").innerHTML = found.hints[number];
      });
      part("solution").open = false;
      part("solution").querySelector("div").innerHTML = found.solution;
      say("");
      history.replaceState(history.state, "", address());
    }

    async function check() {
      await showing;
      if (field.value.trim() !== String(seed)) return; // the page says what is wrong with the seed
      if (!typed.value.trim()) return say("Type your answer first.", "problem");
      const given = { key: root.id, seed, typed: typed.value };
      const found = await asked("exercises.asking.answered", given, "Checking …");
      if (found) say(found.says, found.right ? "right" : "wrong");
    }

    function address() {
      return `${location.href.split("#")[0]}#${root.id}=${seed}`;
    }

    async function copyLink({ currentTarget }) {
      const copied = await desk.toClipboard(address());
      desk.flash(currentTarget, copied ? "Copied" : "Press Ctrl+C");
    }
  }
});
