"""Review: what differs between two data sheets, their values and the answers of their surveys."""

import re
from collections.abc import Iterator, Sequence
from itertools import zip_longest
from typing import NamedTuple

from calc.form.content import plain_results, unit_of
from calc.form.showing import shown
from calc.quantity import Quantity
from calc.sheet.compare import differences
from calc.sheet.sheet import Sheet
from calc.survey.growing import changes
from calc.survey.headline import headline
from calc.survey.report.blocks import Block, Code, Grid, Heading, Words
from calc.survey.review.moved import in_words, rows_moved
from calc.survey.sensitivity import figure_of
from calc.survey.survey import Answer

NOTHING = "—"
_NUMBER = re.compile(r"[\d.,]+")
SAME = "To the digits shown nothing changed in"


class Pair(NamedTuple):
    """The same question to both sheets; None for a sheet of which it is not asked."""

    before: Answer | None
    after: Answer | None

    @property
    def title(self) -> str:
        """What the question is called, or was called and is called now."""
        titles = [one.asked.title for one in self if one is not None]
        return " → ".join(dict.fromkeys(titles))


def review(
    before: Sheet, after: Sheet, digest: str, answers: tuple[Sequence[Answer], Sequence[Answer]]
) -> list[Block]:
    """Return what differs between two sheets, inputs and results side by side.

    Args:
        before: The sheet of before.
        after: The sheet of now.
        digest: SHA-256 of the file of the sheet before.
        answers: What `survey` returned of the sheet before, and of the sheet now.
    """
    return [
        Heading("What differs from the sheet before"),
        Code(f"Before: {before.title or 'sheet without a title'}, SHA-256", digest),
        *_inputs(before, after),
        *_results(pairs(*answers)),
    ]


def pairs(before: Sequence[Answer], after: Sequence[Answer]) -> list[Pair]:
    """Return the answers in pairs: of one title, or else of one key; those of now come first."""
    left = list(before)
    olds = [_taken(left, "title", new.asked.title) for new in after]
    made = [
        Pair(old or _taken(left, "key", new.asked.key), new)
        for old, new in zip(olds, after, strict=True)
    ]
    return made + [Pair(old, None) for old in left]


def _taken(left: list[Answer], name: str, text: str) -> Answer | None:
    """Take the answer of a title or a key out of a list, or return None."""
    found = next((answer for answer in left if getattr(answer.asked, name) == text), None)
    if found is not None:
        left.remove(found)
    return found


def _inputs(before: Sheet, after: Sheet) -> Iterator[Block]:
    rows = [list(one) for one in differences(before, after)]
    yield Heading("Inputs that differ", 3)
    if rows:
        yield Grid("", ["Where", "Input", "Before", "Now"], rows)
    else:
        yield Words("No input differs.")


def _results(found: list[Pair]) -> Iterator[Block]:
    yield Heading("Results that differ", 3)
    same, glance, details = [], [], list[Block]()
    for pair in found:
        own = list(_details(pair))
        line = [_short(pair.before), _short(pair.after), _what(pair)]
        if line[0] == line[1] and not own:
            same.append(pair.title)
            continue
        glance.append([pair.title, *line])
        details += own
    if glance:
        yield Grid("", ["Result", "Before", "Now", "Change"], glance)
    yield from details
    if same:
        yield Words(f"{SAME} {_counted(len(same), 'result')}: {'; '.join(same)}.")


def _short(answer: Answer | None) -> str:
    return "Not asked of this sheet" if answer is None else headline(answer)


def _what(pair: Pair) -> str:
    """Return what became of an answer, in words."""
    before, after = pair
    if before is None:
        return "asked anew"
    if after is None:
        return "asked no more"
    if before.lacks and after.lacks:
        return "lacks something else" if before.lacks != after.lacks else ""
    if before.lacks or after.lacks:
        return "given now" if before.lacks else "given no more"
    return "; ".join([*_grown(before, after), *_figure_moved(before, after)]) or "see below"


def _grown(before: Answer, after: Answer) -> list[str]:
    """Return which cases of ground resonance are unstable now, or no more."""
    if before.calculation is None or after.calculation is None:
        return []
    return changes(before.calculation, after.calculation)


def _figure_moved(before: Answer, after: Answer) -> list[str]:
    """Return how far the number moved that stands for an answer, if it did."""
    old, new = before.calculation, after.calculation
    figure = figure_of(after.asked.formula)
    if figure is None or old is None or new is None or None in (old.result, new.result):
        return []
    ends = (figure.get(old.result), figure.get(new.result))
    moved = in_words(figure.quantity, *ends, figure.quantity.units[0])
    return [f"{figure.label}: {moved}"] if moved else []


def _details(pair: Pair) -> Iterator[Block]:
    """Yield the numbers, warnings and rows that differ where both sheets have an answer."""
    before, after = pair
    if before is None or after is None or before.lacks or after.lacks:
        return
    rows = [*_numbers(before, after), *_comparisons(before, after), *_warnings(before, after)]
    if rows:
        yield Grid(pair.title, ["Result", "Before", "Now", "Change"], rows)
    assert before.calculation is not None
    assert after.calculation is not None
    for block in rows_moved(before.calculation, after.calculation):
        yield block._replace(caption=f"{pair.title}: {block.caption}")


def _numbers(before: Answer, after: Answer) -> Iterator[list[str]]:
    old, new = before.calculation, after.calculation
    assert old is not None
    assert new is not None
    values = {f.name: value for f, value in plain_results(old)}
    for f, value in plain_results(new):
        was, unit = values.get(f.name), unit_of(new, f)
        ends = [shown(f.declaration, one, unit) for one in (was, value)]
        if ends[0] != ends[1]:
            moved = ""
            if isinstance(f.declaration, Quantity) and unit is not None:
                moved = in_words(f.declaration, was, value, unit)
            yield [f.declaration.label, *ends, moved]


def _comparisons(before: Answer, after: Answer) -> Iterator[list[str]]:
    """Yield where the airspeed of the sheet lies against each limit, where that moved."""
    for old, new in zip_longest(before.compared, after.compared):
        ends = [NOTHING if one is None else one.short for one in (old, new)]
        if ends[0] != ends[1]:
            passed = old is not None and new is not None and old.above != new.above
            side = f"now {'above' if new.above else 'below'} it" if passed else ""
            yield ["Airspeed of the sheet", *ends, side]


def _warnings(before: Answer, after: Answer) -> Iterator[list[str]]:
    """Yield the warnings of the calculations that differ; one in other numbers is one warning."""
    old, new = (
        {
            _NUMBER.sub("", text): text
            for text in (*answer.calculation.warnings, *answer.more_warnings)
        }
        for answer in (before, after)
        if answer.calculation is not None
    )
    for words in dict.fromkeys([*new, *old]):
        ends = [said.get(words, NOTHING) for said in (old, new)]
        if ends[0] != ends[1]:
            what = "new" if words not in old else "gone" if words not in new else "other numbers"
            yield ["Warning", *ends, what]


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
