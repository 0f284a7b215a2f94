/* Figures with frames: a still until the reader plays the motion, and in print.
 *
 * A reader who asks the system for less motion can still step through the frames by hand.
 */
(() => {
  "use strict";

  const calm = matchMedia("(prefers-reduced-motion: reduce)");

  function prepare(root) {
    for (const figure of root.querySelectorAll("figure:has(svg .frame)")) control(figure);
  }

  function control(figure) {
    if (figure.querySelector(".motion-controls")) return;
    const frames = [...figure.querySelectorAll("svg .frame")];
    const still = frames.findIndex((frame) => frame.getAttribute("visibility") !== "hidden");
    const seconds = Number(frames[0].dataset.seconds);
    const bar = document.createElement("div");
    bar.className = "motion-controls no-print";
    const play = document.createElement("button");
    play.type = "button";
    const place = document.createElement("input");
    Object.assign(place, { type: "range", min: 0, max: frames.length - 1, value: still });
    place.setAttribute("aria-label", "Moment shown");
    bar.append(play, place);
    figure.querySelector(".scroll-box").after(bar);

    let shown = still;
    let begun = null; // the time at which frame 0 was due, while playing

    function show(number) {
      frames[shown].setAttribute("visibility", "hidden");
      frames[number].removeAttribute("visibility");
      shown = number;
      place.value = number;
    }

    function step(now) {
      if (begun === null || !figure.isConnected) return;
      show(Math.floor((((now - begun) / 1000 / seconds) % 1) * frames.length));
      requestAnimationFrame(step);
    }

    function pause() {
      begun = null;
      play.textContent = "Play the motion";
    }

    play.hidden = calm.matches;
    play.addEventListener("click", () => {
      if (begun !== null) return pause();
      begun = performance.now() - (1000 * seconds * shown) / frames.length;
      play.textContent = "Pause";
      requestAnimationFrame(step);
    });
    place.addEventListener("input", (event) => {
      event.stopPropagation(); // it is no entry of the form
      pause();
      show(Number(place.value));
    });
    addEventListener("beforeprint", () => {
      pause();
      show(still);
    });
    pause();
  }

  prepare(document);
  document.addEventListener("answer", (event) => prepare(event.target));
})();
