"""The engine in a browser: from a server and from disk, beside the same calls in CPython."""

import ast
import math
import shutil
import sys
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Error

from calc import linalg
from calc.browser import plain
from scripts import vendor
from tests.engine import probe
from tests.engine.opened import Opened

ENGINES_AGREE = 1e-9  # relative
CALC = Path(linalg.__file__).parent


def close(expected: object) -> Any:
    """Return `expected`, however deeply it is nested, to the agreement of the engines."""
    if isinstance(expected, list):
        return [close(item) for item in expected]
    return pytest.approx(expected, rel=ENGINES_AGREE, abs=1e-12)


def test_answers_come_from_webassembly(opened: Opened) -> None:
    """The page's answers come from CPython in WebAssembly."""
    assert opened.value("probe.interpreter") == "emscripten"
    assert sys.platform != "emscripten"


def test_answer_is_that_of_cpython(opened: Opened) -> None:
    """A dataclass with what JSON cannot say arrives as `plain` makes it."""
    assert opened.value("probe.point", x=0.1) == plain(probe.point(0.1))


def test_sources_and_docstrings_are_there(opened: Opened) -> None:
    """A page can show source, docstring and annotations of a function."""
    assert opened.value("probe.own_source") == probe.own_source()


def test_modules_for_calc_are_there(opened: Opened) -> None:
    """The trimmed library has every module that it promises to `calc`."""
    assert opened.value("probe.imported", names=vendor.MODULES) == []
    assert opened.value("probe.imported", names=["tkinter"]) != []


def test_modules_that_calc_imports_are_there(opened: Opened) -> None:
    """Whatever of the standard library `calc` imports today, the browser's library has it."""
    names: set[str] = set()
    for path in CALC.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                names.update(alias.name for alias in node.names)
            elif isinstance(node, ast.ImportFrom) and node.module:
                names.add(node.module)
    standard = sorted(name for name in names if name.split(".")[0] in sys.stdlib_module_names)
    assert "math" in standard
    assert opened.value("probe.imported", names=standard) == []


def test_refused_value_is_an_answer(opened: Opened) -> None:
    """A ValueError in Python is an answer, not a failure of the engine."""
    expected = {"kind": "value", "message": "x must not be 2"}
    assert opened.ask("probe.refused", x=2) == {"error": expected}
    assert opened.ask("os.getcwd")["error"]["kind"] == "request"


def test_ways_to_a_network_are_closed(opened: Opened) -> None:
    """The worker cannot connect, load a script or start another worker."""
    names = ["XMLHttpRequest", "WebSocket", "EventSource", "importScripts", "Worker", "caches"]
    assert opened.value("probe.doors", names=names) == []
    assert opened.value("probe.doors", names=["Math"]) == ["Math"]


def test_nothing_is_asked_of_a_network(opened: Opened, address: str) -> None:
    """The engine asks for its own files alone, and nothing complains of the page's policy."""
    opened.value("probe.point", x=1.0)
    folder = address.removesuffix("index.html")
    names = ("engine", "runtime", "calc", "linalg")
    own = [address, *(f"{folder}assets/engine/{name}.js" for name in names)]
    asked = [url for url in opened.requests if not url.startswith(("blob:", "data:"))]
    assert sorted(asked) == sorted(own)
    assert opened.complaints == []


CHAIN = [[2.0, -1.0, 0.0], [-1.0, 2.0, -1.0], [0.0, -1.0, 2.0]]
MASS = [[4.0, 1.0, 0.0], [1.0, 3.0, 0.5], [0.0, 0.5, 2.0]]
SYMMETRIC = [[1.0 / (1.0 + abs(i - j)) + i * (i == j) for j in range(8)] for i in range(8)]
# A state matrix as vibration gives it: rates of a slow, damped pair beside a fast one.
STATE = [
    [0.0, 0.0, 1.0, 0.0],
    [0.0, 0.0, 0.0, 1.0],
    [-4.0, 1.5, -0.3, 40.0],
    [2.0e3, -9.0e5, -40.0, -12.0],
]
# Entries of very unequal size, as units that do not match give them.
UNBALANCED = [[1.0, 1.0e6, 0.0], [1.0e-6, 2.0, 3.0e5], [0.0, -2.0e-6, 3.0]]
# Of one length in every direction: shifts by an eigenvalue near a corner do not help.
CYCLE = [[0.0, 0.0, 1.0], [1.0, 0.0, 0.0], [0.0, 1.0, 0.0]]
LARGE = [[1.0 / (1 + i + 2 * j) + (i == j + 1) * (3.0 - i) for j in range(12)] for i in range(12)]
TURNED = [[(i - j) / (1.0 + i + j) for j in range(4)] for i in range(4)]
# Mass, damping and stiffness that change with time, one of them with a heavy damper.
PERIODIC: dict[str, Any] = {
    "coefficients": [
        [
            MASS,
            [[0.1 * e for e in row] for row in CHAIN],
            [[0.2 * e for e in row] for row in CHAIN],
        ],
        [[[1e4, 0.0, 0.0], [0.0, 0.3, 0.0], [0.0, 0.0, 0.0]], CHAIN, MASS],
        [[[40.0 * e for e in row] for row in CHAIN], MASS, CHAIN],
    ],
    "rate": 3.0,
    "span": [0.2, 2.0],
    "steps": 9,
}
# The same with coefficients that depend on the rate, by its powers.
POWERS = [
    [[[[share * e for e in row] for row in m] for m in kind] for kind in PERIODIC["coefficients"]]
    for share in (1.0, 0.01, 0.002)
]


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        ("eigenvalues", {"matrix": CHAIN}),
        ("eigenvalues", {"matrix": STATE}),
        ("eigenvalues", {"matrix": UNBALANCED}),
        ("eigenvalues", {"matrix": CYCLE}),
        ("eigenvalues", {"matrix": LARGE}),
        ("eigenvalues_of_sums", {"parts": [STATE, TURNED], "shares": [[1.0, 0.5], [1.0, -2.0]]}),
        ("symmetric_eigen", {"matrix": CHAIN}),
        ("symmetric_eigen", {"matrix": SYMMETRIC}),
        ("generalized_symmetric_eigen", {"stiffness": CHAIN, "mass": MASS}),
        ("solve", {"matrix": STATE, "right_side": [1.0, -2.0, 3.0, 4.0]}),
        ("transition", PERIODIC),
        ("multipliers", {"coefficients": POWERS, "turns": [[3.0, 2.0, 9], [0.0, 0.5, 4]]}),
    ],
)
def test_linear_algebra_agrees(opened: Opened, function: str, arguments: dict[str, Any]) -> None:
    """Both engines, numpy and the JavaScript library, give the same to 1e-9."""
    expected = plain(getattr(linalg, function)(**arguments))
    assert opened.value(f"linalg.{function}", **arguments) == close(expected)


def test_values_between_samples_agree(opened: Opened) -> None:
    """Numpy and JavaScript: whole places, places between, and places beyond both ends."""
    samples = [math.sin(1.0 + 0.7 * n * n) for n in range(60)]
    pieces = [-3.0, 20.0, 3.0, -1.5, 18.5, 22.0, 0.0, 0.0, 40.5, 25.0, -2.0, 0.5]
    expected = probe.read_between(samples, pieces, 90)

    found = opened.value("probe.read_between", samples=samples, pieces=pieces, count=90)
    assert found == pytest.approx(expected, rel=1e-9, abs=1e-11)


@pytest.mark.parametrize("block", [1, 2, 15, 30, 64, 97])
def test_fourier_transforms_agree(opened: Opened, block: int) -> None:
    """Numpy, and fft.js with a chirp transform around it, for lengths of every kind."""
    samples = [math.sin(1.0 + 0.7 * n * n) for n in range(3 * block + 4)]
    weights = [1.0 + 0.5 * math.cos(n) for n in range(block)]
    arguments = {"samples": samples, "weights": weights, "step": max(1, block // 3)}
    expected = probe.transformed(samples, weights, max(1, block // 3))

    assert opened.value("probe.transformed", **arguments) == [
        pytest.approx(part, rel=1e-9, abs=1e-11) for part in expected
    ]


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        ("solve", {"matrix": [[1.0, 2.0], [2.0, 4.0]], "right_side": [1.0, 1.0]}),
        ("generalized_symmetric_eigen", {"stiffness": [[1.0]], "mass": [[-1.0]]}),
        ("symmetric_eigen", {"matrix": [[1.0, 2.0], [3.0, 1.0]]}),
        ("eigenvalues", {"matrix": [[1.0, 2.0]]}),
        ("eigenvalues_of_sums", {"parts": [STATE], "shares": [[1.0, 2.0]]}),
        ("transition", PERIODIC | {"coefficients": 3 * [3 * [[[0.0]]]]}),
        ("multipliers", {"coefficients": 3 * [3 * [3 * [[[0.0]]]]], "turns": [[1.0, 2.0, 3]]}),
        ("transition", PERIODIC | {"coefficients": 3 * [[[[1.0]], [[1.0]]]]}),
    ],
)
def test_both_engines_refuse_the_same(
    opened: Opened, function: str, arguments: dict[str, Any]
) -> None:
    """What numpy refuses is refused in a browser, in the same words."""
    with pytest.raises(ValueError, match="must") as refusal:
        getattr(linalg, function)(**arguments)
    error = opened.ask(f"linalg.{function}", **arguments)["error"]
    assert error == {"kind": "value", "message": str(refusal.value)}


def test_progress_and_state_are_told(fresh: Opened) -> None:
    """The state goes from idle through starting to ready, once, however often it is started."""
    states = fresh.page.evaluate(
        """async () => {
            const states = [engine.state];
            document.addEventListener("engine:progress", ({ detail }) => {
                if (detail.state !== engine.state || !detail.text) states.push("wrong");
                if (states.at(-1) !== detail.state) states.push(detail.state);
            });
            await Promise.all([engine.start(), engine.start()]);
            await engine.start();
            return states;
        }"""
    )
    assert states == ["idle", "starting", "ready"]
    scripts = [url for url in fresh.requests if url.endswith("runtime.js")]
    assert len(scripts) == 1


def test_newer_request_replaces_a_waiting_one(fresh: Opened) -> None:
    """Of waiting requests with one key the newest is answered; other keys are left alone."""
    answers = fresh.page.evaluate(
        """async () => {
            await engine.start();
            const ask = (answer, key) =>
                engine.ask({ key, call: "probe.after", arguments: { seconds: 0.05, answer } })
                    .then(({ value }) => value, ({ name }) => name);
            return Promise.all([ask("running", "a"), ask("old", "a"), ask("other", "b"),
                ask("free"), ask("new", "a"), ask("free too")]);
        }"""
    )
    assert answers == ["running", "AbortError", "other", "free", "new", "free too"]


def test_endless_calculation_is_stopped(fresh: Opened) -> None:
    """Past the limit the request is rejected, and the next one is answered by a new worker."""
    fresh.page.evaluate("engine.start().then(() => { engine.limit = 0.5; })")
    endless = {"call": "probe.after", "arguments": {"seconds": 5.0, "answer": "too late"}}
    ending = "(request) => engine.ask(request).catch(({ message }) => [message, engine.state])"
    message, state = fresh.page.evaluate(ending, endless)
    assert "took longer than 0.5 s and was stopped" in message
    assert state == "starting"
    fresh.page.evaluate("engine.limit = 30")
    assert fresh.value("probe.after", seconds=0.0, answer="again") == "again"
    assert fresh.page.evaluate("engine.state") == "ready"


def test_nested_request_does_not_silence_the_engine(fresh: Opened) -> None:
    """A link can carry anything: whatever comes back, the engine answers the next request."""
    outcome = fresh.page.evaluate(
        """() => {
            let nested = [];
            for (let depth = 0; depth < 3000; depth++) nested = [nested];
            return engine.ask({ call: "probe.point", arguments: { x: nested } })
                .then(({ error }) => error.kind, ({ message }) => message);
        }"""
    )
    assert outcome == "defect" or outcome.startswith("The calculator stopped")
    assert fresh.value("probe.after", seconds=0.0, answer="again") == "again"


def test_missing_file_is_a_clear_error(browser: Browser, small_site: Path, tmp_path: Path) -> None:
    """Where a file cannot be loaded, start and ask say which; a later start tries again."""
    folder = shutil.copytree(small_site, tmp_path / "site")
    script = folder / "assets" / "engine" / "calc.js"
    sources = script.read_text(encoding="utf-8")
    script.unlink()
    with browser.new_context() as context:
        opened = Opened(context.new_page(), (folder / "index.html").as_uri())
        with pytest.raises(Error, match=r"cannot load .*/assets/engine/calc\.js"):
            opened.page.evaluate("engine.start()")
        assert opened.page.evaluate("engine.state") == "failed"
        with pytest.raises(Error, match="The calculator did not start"):
            opened.ask("probe.interpreter")
        script.write_text(sources, encoding="utf-8")
        assert opened.value("probe.interpreter") == "emscripten"


@pytest.mark.parametrize("feature", ["WebAssembly", "DecompressionStream"])
def test_browser_without_webassembly_is_told(fresh: Opened, feature: str) -> None:
    """A browser that cannot run the engine, by age or by policy, gets a message that says so."""
    fresh.page.evaluate("(feature) => delete window[feature]", feature)
    with pytest.raises(Error, match="this browser has no WebAssembly, or is too old"):
        fresh.ask("probe.interpreter")


def test_long_text_travels_beside_its_request(fresh: Opened) -> None:
    """A piece is the argument `text`, whatever signs are in it; the next request has none of it."""
    text = 'a "quoted" line\n\u00b5m; \u0001 \U0001f681\n' * 1000
    told = fresh.page.evaluate(
        """async (piece) => {
            const ask = (call, given, more) => engine.ask({ call, arguments: given, piece: more });
            const first = await ask("probe.told", { text: "", last: true }, piece);
            const second = await ask("probe.told", { text: "own", last: false });
            return [first.value, second.value];
        }""",
        text,
    )
    assert told == [[text, True], ["own", False]]
