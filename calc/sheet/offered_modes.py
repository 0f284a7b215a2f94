"""Offered modes: measured modes that come to a data sheet from another page, each with its test."""

import json
import math
from collections.abc import Mapping, Sequence
from typing import Any

from calc.declaration import Field
from calc.digits import plain
from calc.form.mode_offer import LONGEST_METHOD, MOST_MODES, UNITS
from calc.quantity import in_sentence
from calc.sheet.compare import where
from calc.sheet.exchange import Held, compared, file_made, held, sheet_of
from calc.sheet.layout import Section, section
from calc.sheet.operation import MODE_SOURCE
from calc.sheet.sheet import Row, Sheet, Value, filled, number_read, spread

LARGEST = 20_000
"""Characters of an offer."""

TEXTS = {"record": 60, "method": LONGEST_METHOD, "date": 20, "section": 20}
"""Texts of an offer, with how many characters each may have."""

LONGEST_VALUE = 60
NAMES = {"measured_modes": "state", "airframe_modes": "name"}
"""The tables of a sheet that modes go into, with the field that names a mode there."""

VALUES = tuple(UNITS)
TOLERATED = ("frequency", "damping_ratio")
MEASURED = "measured"
ALIKE = 0.1
"""How far frequencies of one mode may lie apart, as a share, so that it is offered its old row."""


class _WrongOfferError(Exception):
    """Why an offer cannot be read, in words for the reader."""


def offer_read(text: str) -> dict[str, Any]:
    """Return what an address offers to a data sheet, or what is wrong with it; nothing is raised.

    An offer comes from an address, which anybody can have written: every part of it is checked.

    Args:
        text: JSON with `modes`, a list of objects with `name` and, of the values above, text with
            its unit or a pair of this and a tolerance; and the texts `record`, `method`, `date`
            and `section`, which may all be missing.

    Returns:
        `offer`, in which every part is there, or None; and `problem`, blank where there is none.

    Examples:
        >>> offer_read('{"modes": [{"name": "roll", "frequency": "3.2 Hz"}]}')["offer"]["modes"]
        [{'name': 'roll', 'frequency': ['3.2 Hz', '']}]
    """
    try:
        return {"offer": _offer(text), "problem": ""}
    except _WrongOfferError as wrong:
        return {"offer": None, "problem": str(wrong)}


def offer_taken(sheet: Held, offer: Mapping[str, Any]) -> dict[str, Any]:
    """Return a sheet with offered modes in it, what that changes, or what keeps it from being so.

    A mode takes the place of the row named, counted from one, or is a new row where that is zero;
    where nothing is named it is the row with the same name and nearly the same frequency.  What
    an offer does not say, such as the modal mass, stays in the row.

    Args:
        sheet: The data sheet as a page holds it.
        offer: As `offer_read` returns it, with the row of each mode under `row`.

    Returns:
        `sheet` as a page holds it, or None; `rows`, the row of each mode; `differences` as
        `compared` tells them; `problems`, each a sentence; and `remark`, which says the values
        that have no tolerance, blank where each has one.
    """
    before = sheet_of(sheet)
    part = section(offer["section"])
    rows = list(before.rows[part.key])
    chosen = _rows(part, rows, offer["modes"])
    problems = [*_missing(offer), *_twice(chosen), *_unread(offer)]
    if len(rows) + chosen.count(0) > part.most:
        problems.append(f"{part.title} can have at most {part.most} rows")
    remark = _untold(part, offer)
    if problems:
        return {
            "sheet": None,
            "rows": chosen,
            "differences": [],
            "problems": problems,
            "remark": remark,
        }
    source = "; ".join(filter(None, (offer[name].strip() for name in ("record", "method", "date"))))
    touched = []
    for mode, number in zip(offer["modes"], chosen, strict=True):
        own = {**(rows[number - 1] if number else {}), **_values(part, mode, source)}
        if number:
            rows[number - 1] = filled(part, own)
        else:
            rows.append(filled(part, own))
        touched.append(f"{part.key} row {number or len(rows)}.")
    made = Sheet(before.title, before.note, before.values, {**before.rows, part.key: tuple(rows)})
    after = held(made)
    wrong = [
        f"{where(problem['field'])}: {problem['message']}"
        for problem in file_made(after)["problems"]
        if problem["field"].startswith(tuple(touched))
    ]
    return {
        "sheet": None if wrong else after,
        "rows": chosen,
        "differences": [] if wrong else compared(sheet, after),
        "problems": wrong,
        "remark": remark,
    }


def _offer(text: str) -> dict[str, Any]:
    """Return an offer with every part in it."""
    if len(text) > LARGEST:
        raise _WrongOfferError("it is too long")
    try:
        said = json.loads(text)
    except (ValueError, RecursionError):
        raise _WrongOfferError("it is not JSON") from None
    if not isinstance(said, dict) or set(said) - {*TEXTS, "modes"}:
        raise _WrongOfferError(f"it may have {', '.join(TEXTS)} and modes, and nothing else")
    texts = {name: _text(name, said.get(name, ""), most) for name, most in TEXTS.items()}
    modes = said.get("modes")
    if not isinstance(modes, list) or not 1 <= len(modes) <= MOST_MODES:
        raise _WrongOfferError(f"it must have 1 to {MOST_MODES} modes")
    found = [_mode(mode) for mode in modes]
    if texts["section"] not in NAMES:
        at_hub = any({"modal_mass", "shape_x", "shape_y"} & set(mode) for mode in found)
        texts["section"] = "measured_modes" if at_hub else "airframe_modes"
    return {**texts, "modes": found}


def _mode(said: Any) -> dict[str, Any]:
    if not isinstance(said, dict) or set(said) - {"name", *VALUES} or "frequency" not in said:
        raise _WrongOfferError(
            f"a mode has a name, a frequency and perhaps {', '.join(VALUES[1:])}"
        )
    values = {name: _pair(name, said[name]) for name in VALUES if name in said}
    return {"name": _text("name", said.get("name", ""), LONGEST_VALUE), **values}


def _pair(name: str, said: Any) -> list[str]:
    """Return a value and its tolerance, each of which can be read."""
    both = said if isinstance(said, list) else [said, ""]
    if len(both) != 2:
        raise _WrongOfferError(f"{name} is a text, or a pair of it and its tolerance")
    text, tolerance = (_text(name, one, LONGEST_VALUE) for one in both)
    f = _field(name)
    try:
        number_read(f, Value(text, MEASURED))
        if tolerance:
            spread(f.declaration, Value(text, MEASURED, tolerance))
    except ValueError as error:
        raise _WrongOfferError(str(error)) from None
    return [text, tolerance]


def _text(name: str, said: Any, most: int) -> str:
    if not isinstance(said, str) or len(said) > most or not (said or " ").isprintable():
        raise _WrongOfferError(f"{name} must be a text of at most {most} printable characters")
    return said


def _field(name: str) -> Field:
    return section("measured_modes").field(name)


def _missing(offer: Mapping[str, Any]) -> list[str]:
    """Return what the reader has not said of the test and of the modes."""
    words = {"record": "Say which test or record the modes are from", "date": "Say its date"}
    missing = [text for name, text in words.items() if not offer[name].strip()]
    if any(not mode["name"].strip() for mode in offer["modes"]):
        name = NAMES[offer["section"]]
        label = section(offer["section"]).field(name).declaration.label
        wanted = name if name == "name" else in_sentence(label)
        missing.append(f"Each mode needs its {wanted} in the column Name")
    return missing


def _untold(part: Section, offer: Mapping[str, Any]) -> str:
    """Return the values that have no tolerance, in a sentence."""
    told = []
    for name in TOLERATED:
        numbers = [
            n for n, mode in enumerate(offer["modes"], 1) if name in mode and not mode[name][1]
        ]
        label = in_sentence(part.field(name).declaration.label)
        of = "mode" if len(numbers) == 1 else "modes"
        told += [f"{label} of {of} {', '.join(map(str, numbers))}"] if numbers else []
    return f"No tolerance stated: {'; '.join(told)}." if told else ""


def _unread(offer: Mapping[str, Any]) -> list[str]:
    """Return what is wrong with a tolerance that the reader has typed."""
    problems = []
    for mode in offer["modes"]:
        for name in VALUES:
            try:
                if name in mode:
                    _pair(name, mode[name])
            except _WrongOfferError as wrong:
                problems.append(str(wrong))
    return problems


def _twice(chosen: Sequence[int]) -> list[str]:
    again = sorted({row for row in chosen if row and chosen.count(row) > 1})
    return [f"Two modes cannot both take the place of row {row}" for row in again]


def _rows(part: Section, rows: Sequence[Row], modes: Sequence[Mapping[str, Any]]) -> list[int]:
    """Return the row of each mode, from one; zero for a new one."""
    chosen: list[int] = []
    for mode in modes:
        row = mode.get("row")
        if isinstance(row, int) and not isinstance(row, bool) and 0 <= row <= len(rows):
            chosen.append(row)
        else:
            chosen.append(_alike(part, rows, mode, chosen))
    return chosen


def _alike(
    part: Section, rows: Sequence[Row], mode: Mapping[str, Any], taken: Sequence[int]
) -> int:
    """Return the row of the same name whose frequency is nearest, if it is near."""
    f = part.field("frequency")
    wanted = number_read(f, Value(mode["frequency"][0])).value
    found, nearest = 0, ALIKE
    for number, row in enumerate(rows, 1):
        frequency = row.get("frequency", Value())
        if number in taken or row.get(NAMES[part.key], Value()).text != mode["name"]:
            continue
        try:
            apart = abs(number_read(f, frequency).value / wanted - 1.0) if frequency.is_known else 0
        except ValueError:
            continue
        if apart <= nearest:
            found, nearest = number, apart
    return found


def _values(part: Section, mode: Mapping[str, Any], source: str) -> dict[str, Value]:
    """Return what a mode says of a row of a table: of an airframe mode, no mass and no shape."""
    own = {f.name for f in part.fields}
    found = {name: Value(*_triple(mode[name])) for name in VALUES if name in mode and name in own}
    if "uncertainty" in own and found["frequency"].tolerance:
        found["uncertainty"] = Value(_share(found["frequency"]), MEASURED)
        found["frequency"] = Value(found["frequency"].text, MEASURED)
    found[NAMES[part.key]] = Value(mode["name"])
    source_field = next(f.name for f in part.fields if f.declaration is MODE_SOURCE)
    return {**found, source_field: Value(source)}


def _triple(pair: Sequence[str]) -> tuple[str, str, str]:
    return pair[0], MEASURED, pair[1]


def _share(frequency: Value) -> str:
    """Return the tolerance of a frequency as a share of it, rounded up to two digits."""
    f = _field("frequency")
    share = spread(f.declaration, frequency) / number_read(f, frequency).value
    if not share:
        return "0"
    step = 10.0 ** (math.floor(math.log10(share)) - 1)
    return plain(math.ceil(share / step - 1e-9) * step, 2)
