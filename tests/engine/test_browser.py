"""Requests and answers of `calc.browser`, in CPython."""

import json
from collections.abc import Callable
from enum import Enum
from typing import Any

import pytest

from calc import browser, linalg
from tests.engine.probe import Point


@pytest.fixture(autouse=True)
def allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Allow the functions that these tests call."""
    monkeypatch.setattr(browser, "ALLOWED", ("linalg.solve",))


def answer(**request: object) -> Any:
    """Return the answer to a request."""
    return json.loads(browser.respond(json.dumps(request)))


def test_value_is_what_the_function_returns() -> None:
    """A request by name gives the same as the call in Python."""
    arguments = {"matrix": [[2.0, 1.0], [0.0, 3.0]], "right_side": [1.0, 1.0]}
    expected = linalg.solve([[2.0, 1.0], [0.0, 3.0]], [1.0, 1.0])
    assert answer(call="linalg.solve", arguments=arguments) == {"value": expected}


def test_every_allowed_function_exists(monkeypatch: pytest.MonkeyPatch) -> None:
    """A request without arguments to each function on the real list finds a function."""
    monkeypatch.undo()
    for call in browser.ALLOWED:
        error = answer(call=call, arguments={}).get("error", {})
        assert error.get("kind") != "defect", error


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("{", "The request is not JSON"),
        ("[]", "The request must be an object"),
        ("{}", "There is no function None to call"),
        ('{"call": ["linalg.solve"]}', "There is no function"),
        ('{"call": "linalg._square", "arguments": {"matrix": [[1]]}}', "There is no function"),
        ('{"call": "builtins.exec", "arguments": {}}', "There is no function"),
        ('{"call": "linalg.solve", "arguments": []}', "The arguments must be an object"),
        ('{"call": "linalg.solve", "arguments": {"matrix": []}}', "missing a required argument"),
        ('{"call": "linalg.solve", "arguments": {"x": 1}}', "missing a required argument"),
    ],
)
def test_wrong_request_is_said_to_be_one(text: str, message: str) -> None:
    """A mistake in the page is told apart from a value that is refused."""
    error = json.loads(browser.respond(text))["error"]
    assert error["kind"] == "request"
    assert message in error["message"]


def test_refused_value_keeps_its_message() -> None:
    """The words of a ValueError reach the reader unchanged."""
    arguments: dict[str, object] = {"matrix": [[0.0]], "right_side": [1.0]}
    expected = {"kind": "value", "message": "The matrix must not be singular"}
    assert answer(call="linalg.solve", arguments=arguments) == {"error": expected}


def raise_zero_division(**_: object) -> float:
    """Fail as a mistake in a formula would."""
    return 1 / 0


def return_object(**_: object) -> object:
    """Return what JSON cannot hold."""
    return object()


@pytest.mark.parametrize(
    ("function", "message"),
    [
        (raise_zero_division, "ZeroDivisionError: division by zero"),
        (return_object, "TypeError: object cannot be sent to the page"),
    ],
)
def test_defect_is_an_answer_too(
    function: Callable[..., object], message: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever goes wrong inside, the page gets an answer."""
    monkeypatch.setattr(linalg, "solve", function)
    expected = {"kind": "defect", "message": message}
    assert answer(call="linalg.solve", arguments={}) == {"error": expected}


class Colour(Enum):
    """An enumeration whose value is a list."""

    GREY = (0.5, 0.5)


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (Point(1.5, float("-inf"), 1j), {"x": 1.5, "infinite": "-Infinity", "root": [0.0, 1.0]}),
        ({1: (None, True, "a")}, {"1": [None, True, "a"]}),
        (complex(float("nan"), 0.0), ["NaN", 0.0]),
        (Colour.GREY, [0.5, 0.5]),
    ],
)
def test_plain_values(value: object, expected: object) -> None:
    """Dataclasses, complex numbers, enumerations and numbers without end become JSON."""
    assert browser.plain(value) == expected
    assert json.loads(json.dumps(browser.plain(value), allow_nan=False)) == expected


@pytest.mark.parametrize("name", ["NaN", "Infinity", "-Infinity"])
def test_number_without_end_reads_back(name: str) -> None:
    """Python's float() reads the text that stands for a number that is not finite."""
    assert browser.plain(float(name)) == name
