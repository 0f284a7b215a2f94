"""Train: the drive train of a data sheet, and where it contradicts the rest of the sheet."""

from calc.catalogue import formula
from calc.declaration import inputs
from calc.form.reading import read
from calc.form.showing import shown
from calc.harmonics.drive_train import INDEPENDENT, Part, Turning, turning
from calc.sheet.layout import TRAIN, section
from calc.sheet.sheet import Sheet
from calc.survey.asked import Feed, Place

NOT_ALIKE = 0.005
"""Difference of two statements of a rotor speed that is reported, as a share."""


def drive_train(sheet: Sheet) -> Feed:
    """Return the drive train of a sheet and its reference shaft.

    A train that cannot turn is missing, by the field that is wrong where that can be told; one
    that contradicts the rotor speed or the number of blades of the sheet has a warning.
    """
    feed = Feed(sheet)
    feed.take_rows("train", "drive_train")
    feed.take("drive", "reference")
    if feed.missing:
        return feed
    table = next(f.declaration for f in inputs(formula(TRAIN)) if f.name == "train")
    reference = feed.entries["reference"]
    parts: tuple[Part, ...] = ()
    try:
        parts = read(table, feed.entries["train"]).value
        turns = turning(parts)
    except ValueError as error:
        feed.missing += _unknown_drivers(parts) or [_fault(parts, str(error))]
        return feed
    if reference not in turns:
        lack = Place("drive", -1, "reference").lack
        feed.missing.append(f"{lack}: no part of the drive train is called {reference}")
        return feed
    _compare_speed(feed, reference, turns)
    _compare_blades(feed, reference, parts, turns)
    return feed


def _unknown_drivers(parts: tuple[Part, ...]) -> list[str]:
    """Return what is said of each part that is driven by one that is not there."""
    names = {INDEPENDENT, *(part.name for part in parts)}
    return [
        f"{Place('drive_train', row, 'driven_by').lack}: no part is called {part.driven_by}"
        for row, part in enumerate(parts)
        if part.driven_by not in names
    ]


def _fault(parts: tuple[Part, ...], message: str) -> str:
    """Return a fault of the train, at the row of the part that it names."""
    rows = (row for row, part in enumerate(parts) if message.startswith(f"{part.name}: "))
    row = next(rows, None)
    place = Place("drive_train", -1, "") if row is None else Place("drive_train", row, "name")
    return f"{place.lack}: {message}"


def _compare_speed(feed: Feed, reference: str, turns: dict[str, Turning]) -> None:
    """Warn where the train turns the reference shaft at another speed than the sheet gives."""
    nominal = feed.reading("rotorcraft", "rotor_speed", needed=False)
    if nominal is None:
        feed.notes.append(_not_compared("rotor_speed"))
        return
    turned = turns[reference].speed
    if abs(turned / nominal.value - 1.0) > NOT_ALIKE:
        speed = section("rotorcraft").field("rotor_speed").declaration
        feed.warnings.append(
            f"The drive train turns {reference} at {shown(speed, turned)}, the sheet gives "
            f"{shown(speed, nominal.value)} as rotor speed"
        )


def _compare_blades(
    feed: Feed, reference: str, parts: tuple[Part, ...], turns: dict[str, Turning]
) -> None:
    """Warn where the rotor of the train has another number of blades than the sheet gives.

    The rotor is the reference shaft, or else each rotor that turns as fast as that does.
    """
    rotors = [
        part for part in parts if part.kind == "rotor" and turns[part.name] == turns[reference]
    ]
    rotors = [part for part in rotors if part.name == reference] or rotors
    blades = feed.reading("rotorcraft", "blades", needed=False)
    if blades is None:
        feed.notes.append(_not_compared("blades"))
        return
    feed.warnings += [
        f"The drive train gives {rotor.name} {rotor.count} blades, the sheet gives {blades.value}"
        for rotor in rotors
        if rotor.count != blades.value
    ]


def _not_compared(name: str) -> str:
    label = section("rotorcraft").field(name).declaration.label
    return f"The drive train is not compared with what is unknown: {label} (rotorcraft)"
