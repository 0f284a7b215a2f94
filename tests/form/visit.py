"""A reader's visit to a form: what it should show is kept beside what it shows."""

from concurrent.futures import Executor, Future
from typing import Any

from playwright.sync_api import Page

from calc.form.answer import answer
from tests.form.model import Fleet, Model
from tests.form.reader import Reader, words

SLOW = {
    "blades.fan_plot.fan_plot",
    "blades.southwell.southwell_coefficients",
    "ground.assessment.assessment",
    "ground.degraded_damper.critical_damper_share",
    "ground.degraded_damper.degraded_damper",
    "ground.required_damping.required_lag_damping",
    "ground.required_damping.required_support_damping",
    "rotor.airspeed_limits.airspeed_limits",
}
"""Forms whose answer takes 0.5 s and more: it is looked at after every fourth field."""


class Visit:
    """A reader who works through a form, with what it should show and what was wrong."""

    def __init__(self, page: Page, name: str, python: Executor, fleet: Fleet | None = None) -> None:
        """Sit down at a form that shows its example."""
        self.name = name
        self.reader = Reader(page, name)
        self.model = Model(name, fleet)
        self.python = python
        self.digits = 4
        self.results: dict[str, str] = {}
        self.wrong: list[str] = []
        self.asked: list[tuple[str, str, Future[dict[str, Any]]]] = []
        self.looks = 0

    def look(self, after: str, *, result: bool = True) -> None:
        """Compare the entries with those typed, and the result with that of CPython."""
        seen, expected = self.reader.fields(), self.model.seen()
        self.wrong += [
            f"{self.name} {after}: {key} is {seen.get(key)}, not {shown}"
            for key, shown in expected.items()
            if seen.get(key) != shown
        ]
        self.looks += result
        if result and (self.name not in SLOW or self.looks % 4 == 0):
            self.look_at_result(after)

    def look_at_result(self, after: str) -> None:
        """Note the result; what it should be is computed meanwhile."""
        expected = self.expected()
        self.asked.append((after, self.reader.result(), expected))

    def glance(self, after: str) -> None:
        """Note a result that stands there, without waiting, as if it were that of the entries."""
        if seen := self.reader.result_at_once():
            expected = self.expected()
            self.asked.append((f"at once {after}", seen, expected))

    def expected(self) -> Future[dict[str, Any]]:
        """Return the answer that the form should show, which is computed meanwhile."""
        sent, system = self.model.sent(), self.model.system
        return self.python.submit(answer, self.name, sent, self.digits, system, self.results)

    def findings(self) -> list[str]:
        """Return what was wrong, in the end."""
        for after, seen, expected in self.asked:
            shown = words(expected.result()["html"])
            if seen != shown:
                self.wrong.append(f"{self.name} {after}: “{seen[:200]}”, not “{shown[:200]}”")
        self.asked = []
        return self.wrong
