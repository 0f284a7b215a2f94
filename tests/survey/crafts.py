"""Invented rotorcraft at random, as data sheets on which some is unknown."""

import random

from calc.digits import plain
from calc.quantity import Quantity
from calc.sheet.file import opened
from calc.sheet.layout import section
from calc.sheet.sheet import Row, Sheet, Value, value_read
from scripts.environment import ROOT

FIXED = ("rotor_speeds", "propeller", "ground_run", "drive_train")
"""Sections whose numbers have to fit one another."""


def example(name: str) -> Sheet:
    """Return one of the examples that ship."""
    sheet = opened((ROOT / "docs" / "examples" / f"{name}.toml").read_bytes()).sheet
    assert sheet is not None
    return sheet


def random_craft(seed: int, *, slow: bool) -> Sheet:
    """Return an example with numbers up to a tenth off, in any unit, and a part unknown.

    What takes long to calculate is unknown unless `slow` asks for it.
    """
    dice = random.Random(seed)  # noqa: S311 - reproducible, nothing is secret
    base = example(dice.choice(["plover", "curlew", "dunlin"]))
    share = dice.choice([0.0, 0.0, 0.05, 0.3])
    values = {}
    for place, value in base.values.items():
        key, _, name = place.partition(".")
        varied = _varied(dice, key, name, value)
        values[place] = Value() if dice.random() < share else varied
    rows: dict[str, tuple[Row, ...]] = {}
    for key, table in base.rows.items():
        made = [{n: _varied(dice, key, n, value) for n, value in row.items()} for row in table]
        rows[key] = tuple(made) if dice.random() > share else ()
    if slow:
        rows["measured_modes"] = rows["measured_modes"][:1]
    else:
        values["flight.highest_altitude"] = Value()
        rows |= {"measured_modes": (), "landing_gear_states": (), "blade_segments": ()}
    return Sheet(base.title, base.note, values, rows)


def _varied(dice: random.Random, key: str, name: str, value: Value) -> Value:
    """Return a value with another number and unit; words, counts and speeds that meet stay."""
    f = section(key).field(name)
    quantity = f.declaration
    if key in FIXED or "speed" in name or not value.is_known:
        return value
    if not isinstance(quantity, Quantity) or quantity.whole:
        return value
    number = value_read(f, value).value * dice.uniform(0.9, 1.1)
    unit = dice.choice(quantity.units)
    return Value(f"{plain(unit.reading(number), 7)} {unit.name}".rstrip(), value.origin)
