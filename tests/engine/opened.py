"""The page with the engine, opened in a browser."""

from typing import Any

from playwright.sync_api import Page

from tests.waiting import PATIENT


class Opened:
    """The page in a browser, with what it asked for and complained about."""

    def __init__(self, page: Page, address: str) -> None:
        """Open the page and start the engine."""
        self.page = page
        self.requests: list[str] = []
        self.complaints: list[str] = []
        page.on("request", lambda request: self.requests.append(request.url))
        page.on("console", lambda message: self.complaints.append(message.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.add_init_script(PATIENT)
        page.goto(address)

    def ask(self, call: str, **arguments: object) -> Any:
        """Return the engine's answer."""
        request = {"call": call, "arguments": arguments}
        return self.page.evaluate("(request) => engine.ask(request)", request)

    def value(self, call: str, **arguments: object) -> Any:
        """Return the value in the engine's answer."""
        answer = self.ask(call, **arguments)
        assert "value" in answer, answer
        return answer["value"]
