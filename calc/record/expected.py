"""Expected: the drive train of a reader, turned at the speed of the record, and its lines."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, NamedTuple

from calc.catalogue import formula
from calc.declaration import inputs
from calc.form.reading import entry_of, read
from calc.harmonics.drive_train import Part, turning
from calc.harmonics.sources import SourceLine, source_table
from calc.sheet.exchange import sheet_of
from calc.survey.train import drive_train

FORM = "harmonics.sources.source_table"


class Expected(NamedTuple):
    """A drive train at the speed of the record, its lines in the airframe, and notes."""

    train: tuple[Part, ...] = ()
    lines: Sequence[SourceLine] = ()
    notes: Sequence[str] = ()


def expected(whose: str, kept: Mapping[str, Any], measured: float | None) -> Expected:
    """Return the drive train that is meant, and the lines that an airframe shows of it.

    Args:
        whose: `none`, `sheet` for the data sheet or `form` for the form of forcing frequencies
            that the browser keeps, or `example`.
        kept: What the browser keeps: the `sheet` as a page holds it, the entries of the `form`.
        measured: The speed of the reference shaft that the record has, rad/s; None to take the
            speeds as entered.

    Returns:
        The train with every shaft that turns with the reference shaft at the measured speed, and
        other independent shafts as entered.
    """
    if whose == "none":
        return Expected()
    entries, notes = _entries(whose, kept)
    if entries is None:
        return Expected(notes=notes)
    declared = {f.name: f.declaration for f in inputs(formula(FORM))}
    try:
        train, reference = (read(declared[name], entries[name]).value for name in declared)
        if measured is not None:
            train, notes = _at_speed(train, reference, measured, notes)
        lines = [line for line in source_table(train, reference) if line.frame == "airframe"]
    except (KeyError, ValueError) as error:
        return Expected(notes=[f"The drive train has no lines: {error}"])
    return Expected(train, lines, notes)


def _entries(whose: str, kept: Mapping[str, Any]) -> tuple[Mapping[str, str] | None, Sequence[str]]:
    """Return the entries of the form of forcing frequencies, or why there are none."""
    if whose == "example":
        return {f.name: entry_of(f.declaration, f.start) for f in inputs(formula(FORM))}, []
    if whose == "form":
        found = kept.get("form")
        return found, [] if found else ["This browser keeps no drive train of that form"]
    if not kept.get("sheet"):
        return None, ["This browser keeps no data sheet"]
    feed = drive_train(sheet_of(kept["sheet"]))
    if feed.missing:
        return None, [f"The data sheet lacks: {', '.join(feed.missing)}"]
    return feed.entries, feed.warnings


def _at_speed(
    train: tuple[Part, ...], reference: str, measured: float, notes: Sequence[str]
) -> tuple[tuple[Part, ...], Sequence[str]]:
    """Return the train with its reference shaft at the measured speed."""
    turns = turning(train)
    leader, _, entered = turns[reference]
    share = measured / entered if entered else 1.0
    turned = tuple(
        replace(part, speed=part.speed * share) if part.name == leader else part for part in train
    )
    others = sorted({turn.follows for turn in turns.values()} - {leader})
    if others:
        words = ", ".join(others)
        notes = [*notes, f"Lines of {words} are at the speed entered, which the record has not"]
    return turned, notes
