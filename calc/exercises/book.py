"""Book: every exercise by its key, chapter by chapter."""

from collections.abc import Iterator, Mapping

from calc.exercises import (
    airframe,
    blades,
    cases,
    flight,
    ground,
    harmonics,
    measurement,
    rotor,
)
from calc.exercises.exercise import Exercise

CHAPTERS: Mapping[str, tuple[str, tuple[Exercise, ...]]] = {
    "rotor": ("Rotor", rotor.EXERCISES),
    "harmonics": ("Harmonics", harmonics.EXERCISES),
    "blades": ("Blades", blades.EXERCISES),
    "airframe": ("Airframe", airframe.EXERCISES),
    "flight": ("Flight modes", flight.EXERCISES),
    "ground": ("Ground resonance", ground.EXERCISES),
    "measurement": ("Measurement", measurement.EXERCISES),
    "cases": ("Small cases", cases.EXERCISES),
}
"""By the name of its page: the title of a chapter and its exercises."""


def all_exercises() -> Iterator[Exercise]:
    """Yield every exercise."""
    for _, exercises in CHAPTERS.values():
        yield from exercises


def exercise(key: str) -> Exercise:
    """Return an exercise by its key.

    Raises:
        ValueError: If there is none.
    """
    for found in all_exercises():
        if found.key == key:
            return found
    raise ValueError(f"There is no exercise {key[:40]}")


def page_of(key: str) -> str:
    """Return the name of the page on which an exercise stands."""
    return next(
        chapter
        for chapter, (_, exercises) in CHAPTERS.items()
        if any(found.key == key for found in exercises)
    )
