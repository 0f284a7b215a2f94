"""Within: what an input that is off by its tolerance makes of an answer, where that is worse."""

from typing import NamedTuple

from calc.quantity import in_sentence
from calc.survey.sensitivity import Sensitivity
from calc.survey.survey import Answer


class Passed(NamedTuple):
    """An end of a tolerance at which a bound is passed, in short and in full."""

    short: str
    words: str


def passed(answer: Answer, found: Sensitivity | None) -> list[Passed]:
    """Return each end of a tolerance at which a verdict that holds as given no longer holds.

    Args:
        answer: An answer of a survey.
        found: What the tolerances of the sheet do to it, if that was asked.

    Returns:
        The ends, those of the input that decides first; none where the bound is passed as given.
    """
    if found is None or found.bound is None or found.bound.is_past(found.value):
        return []
    bound, quantity = found.bound, found.figure.quantity
    about = f", of {found.about}" if found.about else ""
    ends = [
        (effect, value, end)
        for effect in found.effects
        for value, end in ((effect.low, "low"), (effect.high, "high"))
        if value is not None and bound.is_past(value)
    ]
    said = []
    for effect, value, end in ends:
        short = f"{bound.past} with {effect.place.words} at its {end} end"
        words = (
            f"Within the tolerances: {bound.past} with the {in_sentence(effect.label)} "
            f"({effect.place.words}), {effect.value.text} ± {effect.value.tolerance}, at its {end} "
            f"end; {in_sentence(found.figure.label)} {answer.shown(quantity, value)}, as given "
            f"{answer.shown(quantity, found.value)}{about}"
        )
        said.append(Passed(short, words))
    return said


def warnings_of(answer: Answer, found: Sensitivity | None) -> tuple[str, ...]:
    """Return the warnings of an answer, with those of its tolerances."""
    return (*answer.warnings, *(one.words for one in passed(answer, found)))
