"""Answers the page: a request in JSON calls one of the functions listed here."""

import dataclasses
import importlib
import inspect
import json
import math
from collections.abc import Mapping
from enum import Enum
from typing import Any

# What a page may call, as "module.function" inside `calc`.  Nothing else can be reached.
ALLOWED: tuple[str, ...] = (
    "form.answer.answer",
    "form.answer.figure_files",
    "form.copying.copies",
    "form.quoting.linked",
    *("sheet.exchange.file_opened", "sheet.exchange.file_made", "sheet.exchange.compared"),
    *("sheet.offered_modes.offer_read", "sheet.offered_modes.offer_taken"),
    *("survey.asking.questions", "survey.asking.answered", "survey.asking.reported"),
    *("survey.asking.quoted", "survey.asking.reviewed", "survey.asking.carded"),
    "survey.needs.needs",
    "measurement.desk.feed",
    *("exercises.asking.asked", "exercises.asking.answered"),
    *("exercises.asking.prepared", "exercises.asking.printed"),
    *("record.opening.example", "record.opening.guessed", "record.opening.begun"),
    *("record.told.told", "record.views.shown", "record.views.taken"),
)


def respond(text: str, piece: str = "") -> str:
    """Return the answer to one request, and never raise.

    A request is `{"call": "module.function", "arguments": {"name": value}}`.
    A long text travels beside it as a `piece`, which becomes the argument `text`.
    The answer is `{"value": ...}` or `{"error": {"kind": ..., "message": ...}}`, where the kind is

    - `request`: the request itself is wrong, which is a mistake in the page;
    - `value`: the function refuses a value with a `ValueError`, whose message is for the reader;
    - `defect`: anything else, which is a mistake in `calc`.

    Args:
        text: The request in JSON.
        piece: The argument `text`, if it is not empty.

    Returns:
        The answer in JSON, in ASCII, made by `plain`.

    Examples:
        >>> respond('{"call": "os.getcwd", "arguments": {}}')
        '{"error": {"kind": "request", "message": "There is no function os.getcwd to call"}}'
    """
    try:
        return json.dumps({"value": plain(_value(text, piece))}, allow_nan=False)
    except _RequestError as error:
        return _failure("request", str(error))
    except ValueError as error:
        return _failure("value", str(error))
    except Exception as error:  # noqa: BLE001 - the page must get an answer whatever happens
        return _failure("defect", f"{type(error).__name__}: {error}")


def plain(value: Any) -> Any:
    """Return `value` made of what JSON knows, so that a page can read it.

    A dataclass becomes an object, a complex number `[real, imaginary]`, an enumeration its value,
    and a number that is not finite the text `"NaN"`, `"Infinity"` or `"-Infinity"`, which
    `Number()` in JavaScript and `float()` in Python read back.

    Args:
        value: What a function of `calc` has returned.

    Returns:
        Dictionaries with text as keys, lists, texts, finite numbers, booleans and None.

    Raises:
        TypeError: If there is something else in it.

    Examples:
        >>> plain({"roots": (1.0, 2j), "gain": float("inf")})
        {'roots': [1.0, [0.0, 2.0]], 'gain': 'Infinity'}
    """
    if isinstance(value, Enum):
        value = value.value
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        value = {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, float):
        return value if math.isfinite(value) else json.dumps(value)  # as JavaScript names it
    if isinstance(value, complex):
        return [plain(value.real), plain(value.imag)]
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [plain(item) for item in value]
    raise TypeError(f"{type(value).__name__} cannot be sent to the page")


class _RequestError(Exception):
    """The request cannot be understood or asks for what there is not."""


def _value(text: str, piece: str) -> Any:
    """Return what the requested function returns."""
    try:
        request = json.loads(text)
    except ValueError as error:
        raise _RequestError(f"The request is not JSON: {error}") from error
    if not isinstance(request, dict):
        raise _RequestError("The request must be an object with call and arguments")
    call, arguments = request.get("call"), request.get("arguments", {})
    if call not in ALLOWED:
        raise _RequestError(f"There is no function {call} to call")
    if not isinstance(arguments, dict):
        raise _RequestError("The arguments must be an object")
    if piece:
        arguments["text"] = piece
    module, _, name = call.rpartition(".")
    function = getattr(importlib.import_module(f"calc.{module}"), name)
    try:
        inspect.signature(function).bind(**arguments)
    except TypeError as error:
        raise _RequestError(f"{call}: {error}") from error
    return function(**arguments)


def _failure(kind: str, message: str) -> str:
    """Return the answer that says what went wrong."""
    return json.dumps({"error": {"kind": kind, "message": message}})
