"""Frequencies: the forcing frequencies, avoid bands and fan plot of a data sheet."""

from collections.abc import Iterator
from typing import Any

from calc.catalogue import formula
from calc.declaration import Table, inputs
from calc.form.calculation import calculate
from calc.form.reading import LONGEST
from calc.sheet.layout import AVOID, FAN, TRAIN
from calc.sheet.sheet import Sheet
from calc.survey import governed
from calc.survey.asked import Asked, Feed, row_of
from calc.survey.train import drive_train

STRONG = ("imbalance or unequal blades", "blade passage")
"""Causes of the lines that count among the excitations of the avoid bands: those of blades."""

BEYOND = 0.1
"""How far beyond the operating range the avoid bands are looked for, as a share of its ends."""


def frequencies(sheet: Sheet) -> Iterator[Asked]:
    """Yield the questions about forcing frequencies and what they meet."""
    yield drive_train(sheet).asked("forcing_frequencies", "Forcing frequencies", TRAIN)
    yield _avoid(sheet)
    yield _fan(sheet)


def _avoid(sheet: Sheet) -> Asked:
    title = "Avoid bands over the whole operating ranges"
    feed, train = Feed(sheet), drive_train(sheet)
    feed.add(train)
    speed = governed.rotor(feed)
    feed.take_rows("modes", "airframe_modes")
    feed.take("avoid", "margin")
    second = governed.propeller(feed) if governed.has_propeller(feed) else None
    part = feed.reading("propeller", "second") if second else None
    if feed.missing or speed is None:
        return feed.asked("avoid_bands", title, AVOID)
    found = calculate(TRAIN, train.entries)
    if found.problems:
        feed.missing.append(f"A drive train that can turn: {found.problems[0].message}")
        return feed.asked("avoid_bands", title, AVOID)
    feed.notes.append("Excitations are 1/rev and the blade passages of rotors, propellers and fans")
    _put_excitations(feed, found.result, train.entries["reference"], part.value if part else "")
    for prefix, own, name in (("rotor", speed, "rotor"), ("second", second, "propeller")):
        if own is None:
            continue
        feed.put(AVOID, f"{prefix}_low", (1.0 - BEYOND) * own.low)
        feed.put(AVOID, f"{prefix}_high", (1.0 + BEYOND) * own.high)
        feed.put(AVOID, f"{prefix}_speed", own.nominal)
        feed.put(AVOID, f"{prefix}_below", 1.0 - own.low / own.nominal)
        feed.put(AVOID, f"{prefix}_above", own.high / own.nominal - 1.0)
        feed.notes.append(
            f"The bands are looked for from {1.0 - BEYOND:.0%} of the lowest to {1.0 + BEYOND:.0%} "
            f"of the highest {name} speed in operation"
        )
    if second is None:
        feed.notes.append("There is no second governed speed; what the form has for it is not used")
    return feed.asked("avoid_bands", title, AVOID)


def _put_excitations(feed: Feed, lines: Any, reference: str, second: str) -> None:
    """Give the excitations: once per revolution and blade passages of all that has blades.

    Lines of one shaft with the same order are one excitation.
    """
    own = _turning(lines, reference)
    other = _turning(lines, second) if second else None
    if second and other is None:
        feed.missing.append(f"A part of the drive train called {second} (propeller.second)")
    if other is not None and own is not None and other.follows == own.follows:
        feed.notes.append(f"{second} turns with {reference}: one governed speed, not two")
        other = None
    merged: dict[tuple[str, str], list[str]] = {}
    for line in lines:
        if line.frame != "airframe" or line.cause not in STRONG:
            continue
        if own is not None and line.follows == own.follows:
            place = "rotor", f"{line.per_rev:.9g}"
        elif other is not None and line.follows == other.follows:
            place = "second", f"{line.frequency / other.frequency:.9g}"
        else:
            place = "none", f"{line.frequency:.9g}"
            note = (
                f"{line.follows} has no governed speed of the sheet: its lines are taken as fixed"
            )
            feed.notes += [note] if note not in feed.notes else []
        merged.setdefault(place, []).append(line.source)
    table = next(f.declaration for f in inputs(formula(AVOID)) if f.name == "sources")
    assert isinstance(table, Table)
    kept = list(merged.items())[: table.at_most]
    if len(merged) > len(kept):
        feed.notes.append(
            f"Of {len(merged)} excitations the {len(kept)} lowest are looked at; the table of "
            "forcing frequencies has all of them"
        )
    feed.entries["sources"] = ";".join(
        row_of(
            [
                _called(names),
                follows,
                f"{0 if follows == 'none' else amount}_/rev",
                f"{amount if follows == 'none' else 0}_Hz",
            ]
        )
        for (follows, amount), names in kept
    )


def _called(names: list[str]) -> str:
    """Return what lines that are one excitation are called, no longer than a name may be."""
    more = f" and {len(names) - 1} more" if len(names) > 1 else ""
    return names[0][: LONGEST - len(more)] + more


def _turning(lines: Any, part: str) -> Any:
    """Return the line of one revolution of a part, or None if there is no such part."""
    return next((line for line in lines if line.source == f"{part} 1/rev"), None)


def _fan(sheet: Sheet) -> Asked:
    feed = Feed(sheet)
    speed = governed.rotor(feed)
    feed.take_rows("segments", "blade_segments")
    feed.take("blade", "hinge_offset", "root", "flap_spring", "lag_spring", "tip_mass")
    feed.take("fan", "flap_modes", "lag_modes", "harmonics", "margin")
    if speed is not None:
        feed.put(FAN, "operating_low", speed.low)
        feed.put(FAN, "operating_high", speed.high)
    return feed.asked("fan_plot", "Fan plot over the whole operating range", FAN)
