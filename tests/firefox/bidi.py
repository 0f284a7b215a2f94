"""A stock Firefox, driven over the standard WebDriver BiDi protocol.

Source:
    W3C, WebDriver BiDi, working draft: the commands and events named below.
"""

import base64
import json
import re
import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from tests.firefox.websocket import WebSocket
from tests.waiting import PATIENCE

SETTINGS = """
user_pref("app.update.disabledForTesting", true);
user_pref("browser.download.alwaysOpenPanel", false);
user_pref("browser.download.folderList", 2);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("print.save_as_pdf.use_page_rule_size_as_paper_size.enabled", false);
"""
"""Firefox itself stays off the network; what a page does is as for any reader."""

LISTENING = re.compile(r"WebDriver BiDi listening on ws://127\.0\.0\.1:(\d+)")
KEYS = {"Control": "\ue009", "Tab": "\ue004", "Enter": "\ue007"}
KEYS |= {"ArrowDown": "\ue015", "ArrowRight": "\ue014"}


class Firefox:
    """A running Firefox, what it has said since it was last asked, and where it saves files."""

    def __init__(self, socket: WebSocket, saved: Path) -> None:
        """Begin a session."""
        self.saved = saved
        self._socket = socket
        self._number = 0
        self.events: list[dict[str, Any]] = []
        self.ask("session.new", capabilities={})
        self.ask("session.subscribe", events=["log.entryAdded", "network.beforeRequestSent"])

    def ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Return the result of a command.

        Raises:
            RuntimeError: If Firefox refuses it.
        """
        self._number += 1
        question = {"id": self._number, "method": method, "params": parameters}
        self._socket.send(json.dumps(question))
        while True:
            answer: dict[str, Any] = json.loads(self._socket.receive())
            if answer["type"] == "event":
                self.events.append(answer)
            elif answer["id"] == self._number:
                break
        if answer["type"] == "error":
            raise RuntimeError(f"{method}: {answer['error']}: {answer['message']}")
        result: dict[str, Any] = answer["result"]
        return result

    @contextmanager
    def reader(self) -> Iterator["Tab"]:
        """Yield a tab of a reader who has never been here before."""
        somebody = self.ask("browser.createUserContext")["userContext"]
        created = self.ask("browsingContext.create", type="tab", userContext=somebody)
        yield Tab(self, created["context"])
        self.ask("browser.removeUserContext", userContext=somebody)


class Tab:
    """A tab, used by keyboard and mouse."""

    def __init__(self, firefox: Firefox, context: str) -> None:
        """Take a tab by its context."""
        self._firefox = firefox
        self._context = context

    def open(self, address: str) -> None:
        """Open an address and wait until it is loaded."""
        self._ask("browsingContext.navigate", url=address, wait="complete")

    def value(self, script: str) -> Any:
        """Return the value of an expression in the page."""
        found = self._evaluate(f"JSON.stringify({script})")
        return json.loads(found["value"]) if found["type"] == "string" else None

    def wait_for(self, script: str, enough: Callable[[Any], bool] = bool) -> Any:
        """Return the value of an expression once it is enough.

        Raises:
            TimeoutError: If it never is.
        """
        end = time.monotonic() + PATIENCE
        while not enough(found := self.value(script)):
            if time.monotonic() > end:
                raise TimeoutError(f"{script} is still {found!r}")
            time.sleep(0.02)
        return found

    def click(self, selector: str) -> None:
        """Click on what a selector finds."""
        place = json.dumps(selector)
        part = self._evaluate(
            f"(() => {{ const part = document.querySelector({place});"
            'part.scrollIntoView({ block: "center", behavior: "instant" }); return part; })()'
        )
        origin = {"type": "element", "element": {"sharedId": part["sharedId"]}}
        self._act(
            "pointer",
            {"type": "pointerMove", "x": 0, "y": 0, "origin": origin},
            {"type": "pointerDown", "button": 0},
            {"type": "pointerUp", "button": 0},
        )

    def type(self, text: str) -> None:
        """Type a text into what has the focus."""
        self._strike([(kind, key) for key in text for kind in ("keyDown", "keyUp")])

    def press(self, *keys: str) -> None:
        """Press keys one after the other, `Control+a` together."""
        for key in keys:
            held = [KEYS.get(name, name) for name in key.split("+")]
            self._strike([("keyDown", k) for k in held] + [("keyUp", k) for k in reversed(held)])

    def pdf(self) -> bytes:
        """Return the page as it is printed."""
        return base64.b64decode(self._ask("browsingContext.print")["data"])

    def _strike(self, strokes: list[tuple[str, str]]) -> None:
        self._act("key", *[{"type": kind, "value": key} for kind, key in strokes])

    def _act(self, kind: str, *actions: dict[str, Any]) -> None:
        device = {"type": kind, "id": kind, "actions": list(actions)}
        self._ask("input.performActions", actions=[device])

    def _evaluate(self, script: str) -> dict[str, Any]:
        answer = self._firefox.ask(
            "script.evaluate",
            expression=script,
            target={"context": self._context},
            awaitPromise=True,
        )
        if answer["type"] == "exception":
            raise RuntimeError(f"{script}: {answer['exceptionDetails']['text']}")
        found: dict[str, Any] = answer["result"]
        return found

    def _ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        return self._firefox.ask(method, context=self._context, **parameters)


@contextmanager
def running_firefox(program: str, profile: Path) -> Iterator[Firefox]:
    """Yield a Firefox without a window, with a profile of its own in an empty folder."""
    saved = profile / "saved"
    settings = f"{SETTINGS}user_pref('browser.download.dir', {json.dumps(str(saved))});"
    (profile / "user.js").write_text(settings, encoding="utf-8")
    options = ["--headless", "--no-remote", "--profile", str(profile), "--remote-debugging-port=0"]
    said = profile / "said.txt"
    with said.open("w") as output:
        process = subprocess.Popen([program, *options], stdout=output, stderr=output)
        try:
            with WebSocket(_port(said, process), "/session", PATIENCE) as socket:
                firefox = Firefox(socket, saved)
                yield firefox
                firefox.ask("browser.close")
            process.wait(PATIENCE)
        finally:
            process.kill()
            process.wait()
    shutil.rmtree(profile, ignore_errors=True)


def _port(said: Path, process: subprocess.Popen[bytes]) -> int:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end and process.poll() is None:
        if found := LISTENING.search(said.read_text()):
            return int(found[1])
        time.sleep(0.05)
    raise RuntimeError(f"Firefox did not start: {said.read_text()}")
