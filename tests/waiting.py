"""Waiting for a page: what it shows in the end is looked at, however slow the machine is.

A page may do what was asked of it in a later turn of its loop: it closes a dialog, follows an
address or hears of another tab only then.  What it shows for a moment alone is written down.
"""

import time
from collections.abc import Callable

from playwright.sync_api import FloatRect, Locator, Page, Route

PATIENCE = 90.0
"""Seconds that anything may take while other programs keep the machine busy."""

REST = """async () => {
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  const ends = ({ effect }) => effect.getComputedTiming().endTime < Infinity;
  await document.fonts.ready;
  await frame();
  await frame();
  await Promise.allSettled(document.getAnimations().filter(ends).map(({ finished }) => finished));
}"""
HELD = """{
  const { postMessage } = Worker.prototype;
  const waiting = [];
  window.held = "";
  window.goOn = () => {
    window.held = null;
    for (const post of waiting.splice(0)) post();
  };
  Worker.prototype.postMessage = function (...given) {
    const post = () => postMessage.apply(this, given);
    if (window.held !== null && given[0].ask?.includes(window.held)) waiting.push(post);
    else post();
  };
}"""
"""Holds back each question to the engine that has the text `held` in it, until `goOn()`."""

PATIENT = """Object.defineProperty(window, "engine", {
  configurable: true,
  set(engine) {
    engine.limit = 600; // s
    Object.defineProperty(window, "engine", { value: engine });
  },
});"""
"""Lets a calculation take its time on a busy machine: the page itself would stop it."""

NOTED = """(place) => {
  const shown = [];
  const anything = { childList: true, characterData: true, subtree: true };
  new MutationObserver(() => shown.push(place.textContent)).observe(place, anything);
  return shown;
}"""
"""Returns the list of all texts that a place shows from now on."""


def becomes(read: Callable[[], object], expected: object) -> None:
    """Fail unless what is read is what is expected in the end."""
    end = time.monotonic() + PATIENCE
    while (seen := read()) != expected and time.monotonic() < end:
        time.sleep(0.02)
    assert seen == expected, f"{seen!r}, not {expected!r}"


def at_rest(page: Page) -> None:
    """Wait until fonts are there and nothing fades or moves any more."""
    page.evaluate(REST)


def box(part: Locator) -> FloatRect:
    """Return where a part stands, which must be shown."""
    found = part.bounding_box()
    assert found is not None, f"{part} is not shown"
    return found


def noted(part: Locator) -> Callable[[str], None]:
    """Write down what a part shows; return what fails unless a text is, or was, among it."""
    shown = part.evaluate_handle(NOTED)
    return lambda text: becomes(lambda: text in shown.json_value(), expected=True)


class Gate:
    """A file that a page asks for in vain until the test lets it come."""

    def __init__(self, page: Page, address: str = "**/engine/runtime.js") -> None:
        """Hold back what a page asks for by an address: as a rule the engine, as if for ever."""
        self.page = page
        self.held: list[Route] = []
        self.is_open = False
        page.route(address, self._come)

    def asked(self) -> Route:
        """Return the oldest request that is held back, once there is one."""
        end = time.monotonic() + PATIENCE
        while not self.held and time.monotonic() < end:
            self.page.wait_for_timeout(20)
        return self.held.pop(0)

    def open(self) -> None:
        """Let everything come, now and later."""
        self.is_open = True
        for route in self.held:
            route.continue_()

    def _come(self, route: Route) -> None:
        if self.is_open:
            route.continue_()
        else:
            self.held.append(route)
