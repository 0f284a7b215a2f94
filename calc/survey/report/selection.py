"""Selection: which parts and answers a data sheet leaves out of its report, as its reader chose."""

from collections.abc import Sequence

from calc.sheet.sheet import UNKNOWN, Sheet
from calc.survey.sensitivity import Sensitivity
from calc.survey.survey import Answer
from calc.survey.within import warnings_of

PARTS = {
    "data": "Data, with where they come from",
    "warnings": "All warnings in one list",
    "figures": "Figures",
    "working": "Working",
    "sensitivity": "What the tolerances do",
}
"""What can be left out beside answers; an answer that stays keeps its own warnings."""

LEAVE_OUT = "report.leave_out"


def entered(sheet: Sheet, place: str) -> str:
    """Return a text of the title block, or nothing where it is blank."""
    value = sheet.value(place)
    return "" if value is None or value.text == UNKNOWN else value.text


def left_out(sheet: Sheet) -> frozenset[str]:
    """Return the keys of the parts and answers that a sheet leaves out; one unknown does nothing.

    Examples:
        >>> from calc.sheet.sheet import Value
        >>> sorted(left_out(Sheet(values={LEAVE_OUT: Value("working, fan_plot")})))
        ['fan_plot', 'working']
    """
    return frozenset(key.strip() for key in entered(sheet, LEAVE_OUT).split(",")) - {""}


def told(sheet: Sheet, answers: Sequence[tuple[Answer, Sensitivity | None]]) -> str:
    """Return the sentence that names what is left out, so that no report looks whole that is not.

    An answer that is left out is named with whether it has warnings or cannot be given.
    """
    keys = left_out(sheet)
    said = [words for key, words in PARTS.items() if key in keys]
    for answer, sensitivity in answers:
        if answer.asked.key in keys:
            what = " (cannot be given)" if answer.lacks else ""
            if warnings_of(answer, sensitivity):
                what = " (with warnings)"
            said.append(f"{answer.asked.title}{what}")
    return f"Left out of this report by choice: {'; '.join(said)}." if said else ""
