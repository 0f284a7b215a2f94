"""Survey: all answers that a data sheet gives, and what it would need for the others."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from calc.declaration import Declaration
from calc.form.calculation import Calculation, calculate
from calc.form.showing import shown
from calc.sheet.sheet import Sheet
from calc.survey.asked import Asked
from calc.survey.compared import Comparison, comparisons, system_unit
from calc.survey.flight import flight
from calc.survey.frequencies import frequencies
from calc.survey.ground import ground
from calc.survey.growing import growing
from calc.unit_systems import STARTING


@dataclass(frozen=True, slots=True)
class Answer:
    """A question with its calculation, or with none where the sheet lacks something.

    `group` asks the question again of another sheet, among a few more; `compared` says where the
    airspeed of the sheet lies against each limiting airspeed of the answer.
    """

    asked: Asked
    calculation: Calculation | None
    group: Callable[[Sheet], Iterator[Asked]]
    compared: tuple[Comparison, ...] = ()

    def of(self, sheet: Sheet) -> Asked | None:
        """Return the same question to another sheet, or None if it is not asked of that one."""
        return next((asked for asked in self.group(sheet) if asked.key == self.asked.key), None)

    def shown(self, declaration: Declaration, value: Any) -> str:
        """Return a value of the answer with its unit, in the system that the answer is shown in."""
        system = self.calculation.shown_in.system if self.calculation else STARTING
        return shown(declaration, value, system_unit(declaration, system))

    @property
    def lacks(self) -> tuple[str, ...]:
        """What the sheet would have to say so that there is an answer; empty if there is one."""
        if self.calculation is None:
            return self.asked.missing
        return tuple(problem.message for problem in self.calculation.problems)

    @property
    def warnings(self) -> tuple[str, ...]:
        """What the calculation warns of, what the sheet contradicts, and each limit that is passed.

        The limits are those that the airspeed of the sheet is above.  There are none of all these
        where there is no answer.
        """
        if self.calculation is None or self.calculation.problems:
            return ()
        above = (one.words for one in self.compared if one.above)
        return (*self.calculation.warnings, *self.more_warnings, *above)

    @property
    def more_warnings(self) -> tuple[str, ...]:
        """The warnings that a form has not: unstable cases, and what the sheet contradicts."""
        own = growing(self.calculation) if self.calculation else ()
        return (*own, *self.asked.warnings)


GROUPS = (frequencies, ground, flight)
"""What a survey asks, in the order of a report."""


def survey(sheet: Sheet) -> list[Answer]:
    """Return the answers, each calculated as a form calculates it.

    Args:
        sheet: A data sheet, as `calc.sheet.file.opened` gives it.

    Returns:
        An answer to every question, in the order of a report.
    """
    return [answer_to(asked, sheet, group) for group in GROUPS for asked in group(sheet)]


def answer_to(asked: Asked, sheet: Sheet, group: Callable[[Sheet], Iterator[Asked]]) -> Answer:
    """Return the answer to one question of a group about a sheet."""
    calculation = calculated(asked)
    return Answer(asked, calculation, group, comparisons(sheet, calculation))


def in_system(answer: Answer, sheet: Sheet, system: str) -> Answer:
    """Return an answer with its numbers in the units of a system; nothing is computed again.

    A result that goes by the unit of an input does so only where that was typed in another unit
    than a form starts with.
    """
    if answer.calculation is None:
        return answer
    own = answer.calculation.shown_in
    given = {same: unit for same, unit in own.given.items() if unit != same[1][0]}
    calculation = replace(answer.calculation, shown_in=replace(own, system=system, given=given))
    return replace(answer, calculation=calculation, compared=comparisons(sheet, calculation))


def calculated(asked: Asked) -> Calculation | None:
    """Return the calculation of a question, or None where something is missing for it."""
    return None if asked.missing else calculate(asked.formula, asked.entries)
